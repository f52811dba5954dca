# Completion of flinch in fish: the program itself says what may stand next.
function __flinch_offers
    set -l words (commandline -opc)
    set -l program $words[1]
    set -e words[1]
    for line in ($program complete -- $words (commandline -ct) 2>/dev/null)
        if test "$line" = /
            __fish_complete_path (commandline -ct)
        else
            echo $line
        end
    end
end
complete -c flinch -f -a '(__flinch_offers)'
