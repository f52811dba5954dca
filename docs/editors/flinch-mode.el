;;; flinch-mode.el --- Flinch rule files -*- lexical-binding: t -*-

;;; Commentary:

;; Colours for rule files, and `flinch serve' for those who use Eglot.  See docs/editors.md.

;;; Code:

(defconst flinch-mode-statements
  '("example" "include" "overlap" "breeds" "family" "source" "alarm" "cause" "means" "care"
    "pack" "rule" "sign" "site" "tier")
  "Words that begin a statement, in the first column.")

(defconst flinch-mode-clauses
  '("yes if worse than before" "yes if seen before" "pounds doubted above"
    "weight doubted above" "weight doubted below" "gives way to" "drawn up in" "lost a week"
    "ask vet if" "age up to" "never neutered" "resting energy" "for clinician" "weight leeway"
    "while waiting" "body surface" "also called" "asked first" "breed table" "ideal score"
    "injected in" "weight from" "applies if" "doses from" "each point" "on purpose" "tells pain"
    "until then" "alone see" "also said" "first aid" "by mouth" "grown at" "may hurt" "never if"
    "not pain" "slims by" "at most" "part of" "read by" "seen at" "seen by" "stop if" "fit if"
    "mentioned" "otherwise" "unlisted" "affects" "because" "benefit" "fasting" "outline"
    "species" "unknown" "version" "accept" "answer" "called" "expect" "unless" "within" "avoid"
    "clear" "found" "grade" "lasts" "level" "since" "sizes" "taken" "takes" "usual" "watch"
    "base" "cite" "form" "give" "harm" "help" "hold" "next" "over" "read" "text" "with" "ask"
    "doi" "for" "how" "say" "see" "url" "yes" "if" "in" "no")
  "Words that begin a clause, on a line of its own.")

(defconst flinch-mode-words
  '("abstract" "capsules" "neutered" "quarters" "withheld" "between" "capsule" "ceiling"
    "derived" "minutes" "nothing" "offered" "seconds" "tablets" "anyone" "clinic" "female"
    "halves" "liquid" "memory" "minute" "months" "number" "paired" "quoted" "second" "shares"
    "spoons" "tablet" "weight" "among" "every" "first" "hands" "hours" "least" "month" "right"
    "sites" "spoon" "steps" "three" "times" "twice" "under" "weeks" "whole" "years" "young"
    "days" "four" "from" "full" "home" "hour" "into" "left" "male" "mark" "mmol" "once" "onto"
    "over" "size" "told" "umol" "week" "year" "age" "and" "day" "for" "not" "one" "per" "see"
    "sex" "the" "yes" "at" "by" "cm" "dL" "if" "in" "is" "kg" "lb" "mL" "mg" "mm" "no" "of" "on"
    "or" "oz" "to" "ug" "C" "F" "L" "a" "g")
  "Words that stand within statements and clauses.")

(defvar flinch-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?_ "w" table)
    table)
  "Comments, texts and names of rule files.")

(defun flinch-mode-spaced (phrase)
  "A pattern for PHRASE with any blanks between its words."
  (mapconcat #'regexp-quote (split-string phrase) "[ \t]+"))

(defvar flinch-mode-font-lock
  (list
   (cons (concat "^" (regexp-opt flinch-mode-statements 'words)) 'font-lock-keyword-face)
   (list (concat "^[ \t]+\\(" (mapconcat #'flinch-mode-spaced flinch-mode-clauses "\\|") "\\)\\>")
         1 'font-lock-builtin-face)
   (cons (regexp-opt flinch-mode-words 'words) 'font-lock-type-face))
  "What `font-lock-mode' shows.")

;;;###autoload
(define-derived-mode flinch-mode prog-mode "Flinch"
  "Rule files of the pain triage."
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+ *")
  (setq-local font-lock-defaults '(flinch-mode-font-lock)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.flinch\\'" . flinch-mode))

(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(flinch-mode . ("flinch" "serve"))))

(provide 'flinch-mode)

;;; flinch-mode.el ends here
