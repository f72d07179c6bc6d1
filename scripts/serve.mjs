/** Serves dist/ on this machine only: node scripts/serve.mjs [--port 3100] [--no-open]. */
import { spawn } from 'node:child_process';
import { createReadStream, existsSync, realpathSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { dirname, extname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const FIRST_PORT = 3100;
const PORTS_TRIED = 50;

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.map': 'application/json; charset=utf-8',
  '.wasm': 'application/wasm',
  '.xml': 'application/xml; charset=utf-8',
  '.xlsx': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
};

/**
 * The file a URL path names inside `folder`, or undefined: outside it, not there, or not a file.
 * The real path is compared as well, so a link cannot lead out.
 */
export function resolveFile(folder, urlPath) {
  let path;
  try {
    path = decodeURIComponent(urlPath);
  } catch {
    return undefined;
  }
  if (path.includes('\0') || path.includes('\\')) return undefined;
  if (path.split('/').includes('..')) return undefined;
  const file = join(folder, path.endsWith('/') ? `${path}desk.html` : path);
  if (!existsSync(file) || !statSync(file).isFile()) return undefined;
  return realpathSync(file).startsWith(realpathSync(folder) + sep) ? file : undefined;
}

/** A request handler for the files of one folder; GET and HEAD only, and only for this machine's name. */
export function fileHandler(folder) {
  return (request, response) => {
    const refuse = (status, text) => {
      response.writeHead(status, { 'Content-Type': TYPES['.txt'] });
      response.end(`${text}\n`);
    };
    const name = (request.headers.host ?? '').replace(/:\d+$/, '');
    if (name !== '127.0.0.1' && name !== 'localhost') {
      refuse(403, 'This page is for this machine only.');
      return;
    }
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      refuse(405, 'Only reading is possible.');
      return;
    }
    const file = resolveFile(folder, (request.url ?? '/').split(/[?#]/)[0]);
    if (file === undefined) {
      refuse(404, 'There is no such file.');
      return;
    }
    response.writeHead(200, {
      'Content-Type': TYPES[extname(file)] ?? 'application/octet-stream',
      'Content-Length': statSync(file).size,
      'Cache-Control': 'no-cache',
      'X-Content-Type-Options': 'nosniff',
      'Referrer-Policy': 'no-referrer',
    });
    if (request.method === 'HEAD') {
      response.end();
      return;
    }
    const stream = createReadStream(file);
    stream.on('error', () => response.destroy());
    stream.pipe(response);
  };
}

/** Listens on 127.0.0.1 at the first free port from `port` on (0: any). Resolves to server and URL. */
export async function serve(folder, port = FIRST_PORT) {
  for (let tried = 0; tried < PORTS_TRIED; tried++) {
    const server = createServer(fileHandler(folder));
    const wanted = port === 0 ? 0 : port + tried;
    const failure = await new Promise((resolve) => {
      server.once('error', resolve);
      server.listen(wanted, '127.0.0.1', () => resolve(undefined));
    });
    if (failure === undefined) {
      return { server, url: `http://127.0.0.1:${server.address().port}/` };
    }
    if (failure.code !== 'EADDRINUSE') throw failure;
  }
  throw new Error(`No free port between ${port} and ${port + PORTS_TRIED - 1}.`);
}

function openBrowser(url) {
  const { platform, env } = process;
  if (platform === 'linux' && !env.DISPLAY && !env.WAYLAND_DISPLAY) return;
  const [command, args] =
    platform === 'darwin'
      ? ['open', [url]]
      : platform === 'win32'
        ? ['cmd', ['/c', 'start', '', url]]
        : ['xdg-open', [url]];
  const child = spawn(command, args, { stdio: 'ignore', detached: true });
  child.on('error', () => process.stderr.write(`Open ${url} in a browser.\n`));
  child.unref();
}

async function main() {
  const args = process.argv.slice(2);
  const at = args.indexOf('--port');
  const port = at === -1 ? FIRST_PORT : Number(args[at + 1]);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    throw new Error('--port needs a whole number from 0 to 65535.');
  }
  const folder = join(ROOT, 'dist');
  if (!existsSync(join(folder, 'desk.html'))) {
    throw new Error('There is no dist/desk.html yet. Run "npm run build" first.');
  }
  const { url } = await serve(folder, port);
  process.stdout.write(`The desk is at ${url}\nStop it with Ctrl+C.\n`);
  if (!args.includes('--no-open') && !process.env.CI) openBrowser(url);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  main().catch((error) => {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 1;
  });
}
