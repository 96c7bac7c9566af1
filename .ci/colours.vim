" Writes to g:left each word that stands without a colour where it must have one:
" the first of its line, numbers, texts and comments.
let s:left = []
for s:n in range(1, line('$'))
  let s:text = getline(s:n)
  for s:word in ['^\s*\zs[^ #"]\+', '\s\zs\d\S*', '"[^"]*"', '\%(^\|\s\)\zs#.*$', '\s\zs\%(for\|by\|on\|seen\|felt\|of\|K\|HZ\|AV\|known\|unknown\)\ze\s']
    let s:at = match(s:text, s:word)
    if s:at >= 0 && s:text !~# '^\s*#' && synID(s:n, s:at + 1, 1) == 0
      call add(s:left, s:n . ': ' . matchstr(s:text, s:word))
    endif
  endfor
endfor
call writefile(s:left, g:left)
qall!
