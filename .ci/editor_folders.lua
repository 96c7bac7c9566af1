-- The lines of `boxbook help editors` for Neovim, with a ledger in several folders:
-- one server has all of its files, and what is typed in one is known in another.
local function fail(text)
  io.stderr:write(text .. '\n')
  vim.cmd('cquit 1')
end

-- vim.lsp.start as its manual has it, where the editor is older.
local started = {}
vim.lsp.start = vim.lsp.start or function(config, opts)
  local same = opts and opts.reuse_client or function(client, other)
    return client.root_dir == other.root_dir and client.name == other.name
  end
  for id, client in pairs(started) do
    if same(client, config) then
      vim.lsp.buf_attach_client(0, id)
      return id
    end
  end
  local id = vim.lsp.start_client(config)
  started[id] = config
  vim.lsp.buf_attach_client(0, id)
  return id
end
vim.fs = vim.fs or { dirname = function(path) return vim.fn.fnamemodify(path, ':h') end }

local ok, err = pcall(vim.cmd, 'luafile ' .. vim.g.lines)
if not ok then fail('the lines of the help: ' .. err) end

local function open(name)
  vim.cmd('edit ' .. vim.g.ledger .. '/' .. name)
  vim.bo.filetype = 'boxbook'
  return vim.api.nvim_get_current_buf()
end
local function unknown(buffer)
  for _, d in ipairs(vim.diagnostic.get(buffer)) do
    if d.message:find('newcomer') then return true end
  end
  return false
end
local function wait(what, ready)
  if not vim.wait(20000, ready, 20) then fail('waited in vain: ' .. what .. vim.inspect(vim.diagnostic.get())) end
end

local main = open('longmere.boxbook')
local season = open('seasons/2025.boxbook')
local coach = open('coach/marek.boxbook')
local last = vim.api.nvim_buf_line_count(coach)
vim.api.nvim_buf_set_lines(coach, last, last, false, { 'flight 2025-11-14 newcomer practice', '  note "x"' })
wait('a pilot that nobody knows', function() return unknown(coach) end)
vim.api.nvim_buf_set_lines(main, 0, 0, false, { 'pilot newcomer' })
wait('a pilot that another buffer has', function() return not unknown(coach) end)
local servers = #vim.lsp.get_active_clients()
if servers ~= 1 then fail('servers for one ledger: ' .. servers) end
print('one server for a ledger in three folders\n')
vim.cmd('qall!')
