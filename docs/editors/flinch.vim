" Flinch rule files. Put this file into ~/.vim/syntax/ and see docs/editors.md.
if exists("b:current_syntax")
  finish
endif
syn case match
syn match flinchWord /\<\%(abstract\|female\|young\|male\|size\|neutered\|quarters\|withheld\|nothing\|offered\|between\|capsule\|ceiling\|derived\|minutes\|seconds\|anyone\|clinic\|halves\|liquid\|memory\|minute\|months\|number\|paired\|quoted\|second\|shares\|tablet\|weight\|among\|every\|first\|hands\|hours\|least\|month\|right\|sites\|spoon\|steps\|under\|weeks\|whole\|years\|three\|times\|twice\|days\|from\|full\|hour\|left\|over\|told\|week\|year\|four\|into\|mark\|mmol\|once\|onto\|umol\|age\|and\|day\|for\|not\|one\|per\|see\|sex\|yes\|the\|at\|by\|cm\|if\|in\|is\|kg\|lb\|mL\|mg\|mm\|no\|of\|or\|oz\|to\|ug\|dL\|on\|C\|F\|L\|g\|a\)\>/
syn match flinchNumber /\<-\?[0-9]\+\%(\.[0-9]\+\)\?\s*%\?/
syn match flinchClause /^\s\+\%(gives\s\+way\s\+to\|yes\s\+if\s\+worse\s\+than\s\+before\|yes\s\+if\s\+seen\s\+before\|body\s\+surface\|never\s\+neutered\|ideal\s\+score\|otherwise\|benefit\|drawn\s\+up\s\+in\|resting\s\+energy\|lost\s\+a\s\+week\|each\s\+point\|injected\s\+in\|weight\s\+from\|doses\s\+from\|until\s\+then\|age\s\+up\s\+to\|grown\s\+at\|fasting\|outline\|called\|lasts\|sizes\|while\s\+waiting\|for\s\+clinician\|breed\s\+table\|applies\s\+if\|ask\s\+vet\s\+if\|on\s\+purpose\|also\s\+called\|also\s\+said\|alone\s\+see\|first\s\+aid\|by\s\+mouth\|slims\s\+by\|may\s\+hurt\|asked\s\+first\|never\s\+if\|not\s\+pain\|mentioned\|unlisted\|unless\|affects\|at\s\+most\|because\|part\s\+of\|read\s\+by\|seen\s\+by\|species\|stop\s\+if\|unknown\|version\|answer\|expect\|fit\s\+if\|accept\|within\|avoid\|clear\|found\|grade\|level\|since\|taken\|takes\|usual\|watch\|base\|cite\|form\|give\|harm\|help\|hold\|next\|over\|read\|text\|with\|ask\|doi\|for\|how\|say\|see\|url\|yes\|if\|in\|no\)\>/
syn match flinchReference /\%(^\s\+\%(doi\|url\|grade\|version\)\s\+\)\@<=\S\+/
syn match flinchStatement /^\%(include\|pack\|source\|tier\|site\|breeds\|sign\|means\|cause\|family\|rule\|alarm\|overlap\|care\|example\)\>/
syn match flinchEscape /\\./ contained
syn region flinchText start=/"/ skip=/\\./ end=/"/ contains=flinchEscape
syn match flinchComment /\%(^\|[[:blank:]%,:()"]\)\@<=#.*$/
hi def link flinchWord Operator
hi def link flinchNumber Number
hi def link flinchClause Keyword
hi def link flinchReference Constant
hi def link flinchStatement Statement
hi def link flinchEscape SpecialChar
hi def link flinchText String
hi def link flinchComment Comment
let b:current_syntax = "flinch"
