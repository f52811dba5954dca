# Completion of flinch in bash: the program itself says what may stand next.
_flinch() {
  local word about begun=${COMP_WORDS[COMP_CWORD]}
  if [[ $begun == '=' ]]; then begun=; fi
  COMPREPLY=()
  while IFS=$'\t' read -r word about; do
    if [[ $word != / ]]; then
      COMPREPLY+=("$word")
      continue
    fi
    compopt -o filenames 2>/dev/null
    while IFS= read -r word; do COMPREPLY+=("$word"); done < <(compgen -f -- "$begun")
  done < <("$1" complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
}
complete -F _flinch flinch
