;; The lines of `boxbook help editors` for Emacs, in a ledger of several folders: one
;; server has all of its files; a mistake is shown, and goes with what another file
;; says; what is formatted and saved is what `tidy` makes.
;;
;;   emacs -q --batch -l editor.el LINES FOLDER
(unless (require 'eglot nil t) ; part of Emacs since 29; Debian's package before
  (package-initialize)
  (require 'eglot))
(require 'flymake)
(setq make-backup-files nil create-lockfiles nil)
(pcase-let ((`(,lines ,folder) command-line-args-left))
  (setq command-line-args-left nil)
  (load lines nil t t)

  (defun wait (what ready)
    (with-timeout (20 (message "waited in vain: %s" what) (kill-emacs 1))
      (while (not (funcall ready)) (accept-process-output nil 0.05))))

  ;; Without a screen nothing is a command, so what waits for one is told that one ran.
  (defun open (name)
    (find-file (expand-file-name name folder))
    (run-hooks 'post-command-hook)
    (wait (concat "a server for " name) #'eglot-current-server)
    (flymake-start)
    (current-buffer))
  (defun typed (where text)
    (goto-char where)
    (insert text)
    (eglot--signal-textDocument/didChange)
    (flymake-start))
  (defun shown (buffer word)
    (with-current-buffer buffer
      (seq-some (lambda (d) (string-search word (flymake-diagnostic-text d))) (flymake-diagnostics))))

  (let ((main (open "longmere.boxbook")) (coach (open "coach/marek.boxbook")))
    (with-current-buffer coach
      (typed (point-max) "\nflight 2026-11-14 newcomer practice\n  note \"x\"\n"))
    (wait "a pilot that nobody knows" (lambda () (shown coach "newcomer")))
    (with-current-buffer main
      (typed (point-min) "pilot newcomer\n"))
    (wait "a pilot that another buffer has" (lambda () (not (shown coach "newcomer"))))
    (with-current-buffer main
      (delete-region (point-min) (progn (goto-char (point-min)) (forward-line) (point)))
      (eglot--signal-textDocument/didChange)
      (typed (point-max) "\nflight 2026-11-14 ines practice\n  sequence intermediate-known-26\n  panel marek\n  1 7.5\n")
      (eglot-format-buffer)
      (save-buffer))
    (unless (eq 1 (length (apply #'append (hash-table-values eglot--servers-by-project))))
      (message "there is more than one server")
      (kill-emacs 1)))
  (message "Emacs %s, eglot: mistakes, one server for a ledger in two folders, formatted" emacs-version)
  (kill-emacs 0))
