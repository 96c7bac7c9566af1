-- What an editor does with the demo, one step after the other; the first that
-- goes wrong ends it.
local function fail(text)
  io.stderr:write(text .. '\n')
  vim.cmd('cquit 1')
end

local function wait(what, ready)
  if not vim.wait(20000, ready, 20) then fail('waited in vain: ' .. what) end
end

local buffer = vim.api.nvim_get_current_buf()
local client = vim.lsp.start_client({
  name = 'boxbook', cmd = { vim.g.boxbook, 'lsp', '--asof', '2026-11-20' }, root_dir = vim.fn.expand('%:p:h'),
})
if not client then fail('the server did not start') end
vim.lsp.buf_attach_client(buffer, client)
wait('the server', function() return vim.lsp.get_client_by_id(client).server_capabilities ~= nil and vim.lsp.buf_is_attached(buffer, client) end)

local function ask(method, params)
  local answers, err = vim.lsp.buf_request_sync(buffer, method, params, 20000)
  if err then fail(method .. ': ' .. err) end
  local answer = answers[client]
  if not answer or answer.error then fail(method .. ': ' .. vim.inspect(answer)) end
  return answer.result
end

local function found() return vim.diagnostic.get(buffer) end
local function place(line, column)
  vim.api.nvim_win_set_cursor(0, { line, column })
  return vim.lsp.util.make_position_params(0, 'utf-16')
end

-- A flight is typed with a slip: it is seen, and gone again once it is corrected.
local last = vim.api.nvim_buf_line_count(buffer)
vim.api.nvim_buf_set_lines(buffer, last, last, false, { 'flight 2026-11-14 in practice', '  sequence intermediate-known-26', '  panel marek', '  1 75' })
wait('the diagnostics', function() return #found() > 0 end)
print('seen: ' .. found()[1].message:gsub('\n', ' '))

-- The pilot is completed.
local items = ask('textDocument/completion', place(last + 1, 20))
local chosen
for _, item in ipairs(items) do
  if item.label == 'ines' then chosen = item end
end
if not chosen then fail('no pilot ines is offered: ' .. vim.inspect(items)) end
vim.lsp.util.apply_text_edits({ chosen.textEdit }, buffer, 'utf-16')
wait('the grade above 10', function()
  return #found() == 1 and found()[1].code == 'grade-above-ten'
end)

-- What has one reading is corrected.
local params = vim.lsp.util.make_given_range_params({ last + 4, 4 }, { last + 4, 4 }, buffer, 'utf-16')
params.context = { diagnostics = {} }
local actions = ask('textDocument/codeAction', params)
if #actions ~= 1 then fail('no correction is offered: ' .. vim.inspect(actions)) end
vim.lsp.util.apply_workspace_edit(actions[1].edit, 'utf-16')
wait('nothing to be wrong', function() return #found() == 0 end)

-- A name is changed in all files, then the text laid out and everything saved.
local line = vim.fn.search('^sequence sportsman-known-26', 'w')
local rename = place(line, 12)
rename.newName = 'lakes-known'
vim.lsp.util.apply_workspace_edit(ask('textDocument/rename', rename), 'utf-16')
local edits = ask('textDocument/formatting', { textDocument = vim.lsp.util.make_text_document_params(buffer), options = { tabSize = 2, insertSpaces = true } })
if #edits == 0 then fail('nothing to lay out') end
vim.lsp.util.apply_text_edits(edits, buffer, 'utf-16')
local hover = ask('textDocument/hover', place(last + 1, 2))
if not hover or not hover.contents.value:find('2026%-11%-14/ines/practice') then fail('hover: ' .. vim.inspect(hover)) end
print('hover: ' .. hover.contents.value:gsub('\n', ' '))
vim.cmd('wall')
vim.lsp.stop_client(client)
print('saved\n')
vim.cmd('qall!')
