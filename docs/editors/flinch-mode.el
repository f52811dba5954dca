;;; flinch-mode.el --- Flinch rule files -*- lexical-binding: t -*-

;;; Commentary:

;; Colours for rule files, and `flinch serve' for those who use Eglot.  See docs/editors.md.

;;; Code:

(defconst flinch-mode-statements
  '("include" "pack" "source" "tier" "site" "breeds" "sign" "means" "cause" "family" "rule"
    "alarm" "overlap" "care" "example")
  "Words that begin a statement, in the first column.")

(defconst flinch-mode-clauses
  '("gives way to" "yes if worse than before" "yes if seen before" "body surface" "never neutered" "ideal score" "otherwise" "benefit"
    "drawn up in" "resting energy" "lost a week" "each point" "injected in" "weight from" "doses from"
    "until then" "age up to" "grown at" "fasting" "outline" "called" "lasts" "sizes"
    "while waiting" "for clinician" "breed table" "applies if" "ask vet if" "on purpose" "also called" "also said" "alone see" "first aid"
    "by mouth" "slims by" "may hurt" "asked first" "never if" "not pain" "mentioned" "unlisted" "unless" "affects" "at most" "because"
    "part of" "read by" "seen by" "species" "stop if" "unknown" "version" "answer" "expect" "fit if"
    "accept" "within" "avoid" "clear" "found" "grade" "level" "since" "taken" "takes" "usual"
    "watch" "base" "cite" "form" "give" "harm" "help" "hold" "next" "over" "read" "text" "with"
    "ask" "doi" "for" "how" "say" "see" "url" "yes" "if" "in" "no")
  "Words that begin a clause, on a line of its own.")

(defconst flinch-mode-words
  '("abstract" "female" "young" "male" "size" "neutered" "quarters" "withheld" "nothing" "offered" "between" "capsule" "ceiling" "derived"
    "minutes" "seconds" "anyone" "clinic" "halves" "liquid" "memory" "minute" "months" "number" "paired" "quoted"
    "second" "shares" "tablet" "weight" "among" "every" "first" "hands" "hours" "least" "month" "right" "sites"
    "spoon" "steps" "under" "weeks" "whole" "years" "three" "times" "twice" "days" "from" "full" "hour" "left"
    "over" "told" "week" "year" "four" "into" "mark" "mmol" "once" "onto" "umol" "age" "and" "day" "for" "not" "one"
    "per" "see" "sex" "yes" "the" "at" "by" "cm" "if" "in" "is" "kg" "lb" "mL" "mg" "mm" "no" "of" "or" "oz" "to"
    "ug" "dL" "on" "C" "F" "L" "g" "a")
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
