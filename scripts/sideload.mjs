/**
 * Serves dist/ over https on this machine and shows the add-in to the spreadsheet program here.
 *
 *   node scripts/sideload.mjs                build what is stale, certificate, manifest, server
 *   node scripts/sideload.mjs --dry-run      say what would be done, do nothing
 *   node scripts/sideload.mjs --remove       take the manifest away again
 *   node scripts/sideload.mjs --certs DIR    use the certificate in DIR, making one there if there is none; it is not
 *                                            made known to the system, so a browser must be told to accept it
 *   node scripts/sideload.mjs --serve-only   leave the manifest to you
 */
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:https';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import certificates from 'office-addin-dev-certs';
import { generateCertificates } from 'office-addin-dev-certs/lib/generate.js';
import { DEVELOPMENT } from './make-manifest.mjs';
import { fileHandler } from './serve.mjs';
import { doStep, sideloadPlan, stepWords } from './sideload-plan.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const OPTIONS = ['--dry-run', '--remove', '--serve-only', '--certs'];

/** Options from the command line. @throws Error saying what is accepted */
export function readOptions(args) {
  const options = { dryRun: false, remove: false, serveOnly: false, certs: undefined };
  for (let i = 0; i < args.length; i++) {
    if (args[i] === '--dry-run') options.dryRun = true;
    else if (args[i] === '--remove') options.remove = true;
    else if (args[i] === '--serve-only') options.serveOnly = true;
    else if (args[i] === '--certs') {
      options.certs = args[++i];
      if (options.certs === undefined) throw new Error('--certs needs a folder.');
    } else
      throw new Error(`"${args[i]}" is no option of sideload; there are ${OPTIONS.join(', ')}.`);
  }
  return options;
}

/** Certificate and key for localhost kept in a folder of one's own, made there when they are missing. */
export async function certificatesIn(folder) {
  const [ca, cert, key] = ['ca.crt', 'localhost.crt', 'localhost.key'].map((name) =>
    join(folder, name),
  );
  if (![ca, cert, key].every(existsSync)) {
    await generateCertificates(ca, cert, key);
    chmodSync(key, 0o600);
  }
  return { ca: readFileSync(ca), cert: readFileSync(cert), key: readFileSync(key) };
}

/**
 * Serves a built folder over https, to this machine only. Every page may read its files: the program on the web
 * fetches the functions' descriptions from its own address.
 *
 * @returns {Promise<import('node:https').Server>} listening on `port`; 0 takes any
 */
export function serveSecurely(folder, { cert, key }, port) {
  const handle = fileHandler(folder);
  const server = createServer({ cert, key }, (request, response) => {
    response.setHeader('Access-Control-Allow-Origin', '*');
    handle(request, response);
  });
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => resolve(server));
  });
}

function build() {
  const script = join(ROOT, 'scripts', 'build.mjs');
  const args = ['--if-stale', '--base-url', DEVELOPMENT.base];
  const { status } = spawnSync(process.execPath, [script, ...args], { stdio: ['ignore', 2, 2] });
  if (status !== 0) throw new Error('The build did not succeed; see above.');
}

async function main() {
  const options = readOptions(process.argv.slice(2));
  const { remove, dryRun, serveOnly, certs } = options;
  const say = (line) => process.stdout.write(`${line}\n`);
  const source = join(ROOT, 'manifest.xml');
  const id = /<Id>(.*?)<\/Id>/.exec(readFileSync(source, 'utf8'))?.[1];
  const manifest = join(ROOT, 'dist', 'manifest.xml');
  const plan = sideloadPlan({ platform: process.platform, home: homedir(), manifest, id, remove });
  const steps = serveOnly ? [] : plan.steps;
  if (dryRun) {
    if (!remove) say(`build dist for ${DEVELOPMENT.base} if it is stale`);
    for (const step of steps) say(stepWords(step));
    if (!remove) say(`serve dist at ${DEVELOPMENT.base}`);
    for (const line of plan.words) say(line);
    return;
  }
  if (!remove) build();
  for (const step of steps) doStep(step);
  if (remove) {
    for (const line of plan.words) say(line);
    return;
  }
  const secrets =
    certs === undefined ? await certificates.getHttpsServerOptions() : await certificatesIn(certs);
  const port = Number(new URL(DEVELOPMENT.base).port);
  await serveSecurely(join(ROOT, 'dist'), secrets, port);
  say(`Serving ${DEVELOPMENT.base}/taskpane.html`);
  if (!serveOnly) for (const line of plan.words) say(line);
  say('Stop it with Ctrl+C.');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  main().catch((error) => {
    const taken = error?.code === 'EADDRINUSE' ? ' Stop the other program that serves there.' : '';
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}${taken}\n`);
    process.exitCode = 1;
  });
}
