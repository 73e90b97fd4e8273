// node tools/embed.mjs FOLDER OUT.cpp: the built files as bytes in one C++ source (server/pages.hpp),
// compressed, in the order of their names, so that the same files give the same source.
import { readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { extname, join, relative, sep } from 'node:path'
import { gzipSync } from 'node:zlib'

const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.json': 'application/json; charset=utf-8',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8'
}

function files_of(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .flatMap((entry) =>
      entry.isDirectory() ? files_of(join(folder, entry.name)) : [join(folder, entry.name)]
    )
    .sort()
}

const [folder, out] = process.argv.slice(2)
const arrays = []
const rows = []
for (const file of files_of(folder)) {
  const type = types[extname(file)]
  if (type === undefined) throw new Error(`${file}: web/tools/embed.mjs knows no type for it`)
  const path = '/' + relative(folder, file).split(sep).join('/')
  const bytes = gzipSync(readFileSync(file), { level: 9 })
  const name = `file_${arrays.length}`
  const lines = []
  for (let i = 0; i < bytes.length; i += 32) lines.push('  ' + [...bytes.subarray(i, i + 32)].join(','))
  arrays.push(`constexpr unsigned char ${name}[] = {\n${lines.join(',\n')}};\n`)
  rows.push(`    {"${path}", "${type}", ${name}, ${path.startsWith('/assets/')}},\n`)
}
writeFileSync(
  out,
  `// Made by web/tools/embed.mjs from web/; do not edit.
#include "server/pages.hpp"

namespace rigproof::server {
namespace {

${arrays.join('\n')}
constexpr Asset all[] = {
${rows.join('')}};

}  // namespace

std::span<const Asset> assets() { return all; }

}  // namespace rigproof::server
`
)
