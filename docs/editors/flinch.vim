" Flinch rule files. Put this file into ~/.vim/syntax/ and see docs/editors.md.
if exists("b:current_syntax")
  finish
endif
syn case match
syn match flinchWord /\<\%(abstract\|capsules\|neutered\|quarters\|withheld\|between\|capsule\|ceiling\|derived\|minutes\|nothing\|offered\|seconds\|tablets\|anyone\|clinic\|female\|halves\|liquid\|memory\|minute\|months\|number\|paired\|quoted\|second\|shares\|spoons\|tablet\|weight\|among\|every\|first\|hands\|hours\|least\|month\|right\|sites\|spoon\|steps\|three\|times\|twice\|under\|weeks\|whole\|years\|young\|days\|four\|from\|full\|home\|hour\|into\|left\|male\|mark\|mmol\|once\|onto\|over\|size\|told\|umol\|week\|year\|age\|and\|day\|for\|not\|one\|per\|see\|sex\|the\|yes\|at\|by\|cm\|dL\|if\|in\|is\|kg\|lb\|mL\|mg\|mm\|no\|of\|on\|or\|oz\|to\|ug\|C\|F\|L\|a\|g\)\>/
syn match flinchNumber /\<-\?[0-9]\+\%(\.[0-9]\+\)\?\s*%\?/
syn match flinchClause /^\s\+\%(yes\s\+if\s\+worse\s\+than\s\+before\|yes\s\+if\s\+seen\s\+before\|pounds\s\+doubted\s\+above\|weight\s\+doubted\s\+above\|weight\s\+doubted\s\+below\|gives\s\+way\s\+to\|drawn\s\+up\s\+in\|lost\s\+a\s\+week\|ask\s\+vet\s\+if\|age\s\+up\s\+to\|never\s\+neutered\|resting\s\+energy\|for\s\+clinician\|weight\s\+leeway\|while\s\+waiting\|body\s\+surface\|also\s\+called\|asked\s\+first\|breed\s\+table\|ideal\s\+score\|injected\s\+in\|weight\s\+from\|applies\s\+if\|doses\s\+from\|each\s\+point\|on\s\+purpose\|tells\s\+pain\|until\s\+then\|alone\s\+see\|also\s\+said\|first\s\+aid\|by\s\+mouth\|grown\s\+at\|may\s\+hurt\|never\s\+if\|not\s\+pain\|slims\s\+by\|at\s\+most\|part\s\+of\|read\s\+by\|seen\s\+at\|seen\s\+by\|stop\s\+if\|fit\s\+if\|mentioned\|otherwise\|unlisted\|affects\|because\|benefit\|fasting\|outline\|species\|unknown\|version\|accept\|answer\|called\|expect\|unless\|within\|avoid\|clear\|found\|grade\|lasts\|level\|since\|sizes\|taken\|takes\|usual\|watch\|base\|cite\|form\|give\|harm\|help\|hold\|next\|over\|read\|text\|with\|ask\|doi\|for\|how\|say\|see\|url\|yes\|if\|in\|no\)\>/
syn match flinchReference /\%(^\s\+\%(doi\|url\|grade\|version\)\s\+\)\@<=\S\+/
syn match flinchStatement /^\%(example\|include\|overlap\|breeds\|family\|source\|alarm\|cause\|means\|care\|pack\|rule\|sign\|site\|tier\)\>/
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
