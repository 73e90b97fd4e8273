// openapi_test.mjs RIGPROOF TOOLS WORK: the description of the service's API, as the running service
// gives it, is OpenAPI 3.1 for a validator that is not ours.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [program, tools, work] = process.argv.slice(2);
const validator = join(tools, 'node_modules/@seriousme/openapi-schema-validator/index.js');
if (!existsSync(validator)) {
  console.log(`skipped: openapi-schema-validator is not in ${tools} (tools/packages.sh: fetch_web_tools)`);
  process.exit(77);
}
const { Validator } = await import(pathToFileURL(validator));

rmSync(work, { recursive: true, force: true });
mkdirSync(work, { recursive: true });
const service = spawn(program, ['serve', '--catalog', 'demo/catalog', '--store', `sqlite:${work}/store.db`,
  '--port', '0', '--json'], { stdio: ['ignore', 'pipe', 'inherit'] });
const ended = new Promise((resolve) => service.once('exit', resolve));
const problems = [];
try {
  let said = '';
  for await (const bytes of service.stdout) {
    said += bytes;
    if (said.includes('\n')) break;
  }
  const description = await (await fetch(`${JSON.parse(said).address}api/openapi.json`)).json();
  const verdict = await new Validator().validate(structuredClone(description));
  if (!verdict.valid) problems.push(`not valid: ${JSON.stringify(verdict.errors, null, 1)}`);
  // The validator can say no.
  const spoiled = structuredClone(description);
  delete spoiled.info.title;
  if ((await new Validator().validate(spoiled)).valid) problems.push('a description without a title passed');
  // Every reference leads somewhere: the schema of OpenAPI does not say so.
  const follow = (node) => {
    if (node === null || typeof node !== 'object') return;
    if (typeof node.$ref === 'string') {
      const target = node.$ref.split('/').slice(1).reduce((at, step) => at?.[step], description);
      if (!node.$ref.startsWith('#/') || target === undefined) problems.push(`${node.$ref} leads nowhere`);
    }
    Object.values(node).forEach(follow);
  };
  follow(description);
  console.log(`${Object.keys(description.paths).length} paths, OpenAPI ${description.openapi}`);
} finally {
  service.kill('SIGINT');
  await ended;
}
problems.forEach((problem) => console.log(problem));
process.exit(problems.length > 0 ? 1 : 0);
