import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serve } from '../../scripts/serve.mjs';

const base = mkdtempSync(join(tmpdir(), 'soakbook-serve-'));
const folder = join(base, 'dist');
let server: Server;
let url: string;

beforeAll(async () => {
  mkdirSync(join(folder, 'vendor'), { recursive: true });
  writeFileSync(join(base, 'secret.txt'), 'secret');
  writeFileSync(join(folder, 'desk.html'), '<p>desk</p>');
  writeFileSync(join(folder, 'vendor', 'a b.js'), 'let a;');
  symlinkSync(join(base, 'secret.txt'), join(folder, 'link.txt'));
  ({ server, url } = await serve(folder, 0));
});
afterAll(() => {
  server.close();
  rmSync(base, { recursive: true });
});

/** Sends a path as it is written; a browser or fetch would tidy the dots away. */
function ask(
  path: string,
  options: { method?: string; headers?: Record<string, string> } = {},
): Promise<{ status: number; type: string; body: string }> {
  const { hostname, port } = new URL(url);
  return new Promise((resolve, reject) => {
    const sent = request({ hostname, port, path, ...options }, (response) => {
      let body = '';
      response.on('data', (chunk: Buffer) => (body += chunk.toString()));
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          type: response.headers['content-type'] ?? '',
          body,
        }),
      );
    });
    sent.on('error', reject);
    sent.end();
  });
}

describe('the local server', () => {
  it('serves the desk at / and files with their types', async () => {
    expect(await ask('/')).toEqual({
      status: 200,
      type: 'text/html; charset=utf-8',
      body: '<p>desk</p>',
    });
    expect(await ask('/vendor/a%20b.js?v=1')).toMatchObject({
      status: 200,
      type: 'text/javascript; charset=utf-8',
    });
  });

  it.each([
    '/../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/vendor/../../secret.txt',
    '/..%5csecret.txt',
    '/link.txt',
    '/vendor',
    '/%00',
    '/%zz',
  ])('does not give out %s', async (path) => {
    const answer = await ask(path);
    expect(answer.status).toBe(404);
    expect(answer.body).not.toContain('secret\n');
    expect(answer.body).toBe('There is no such file.\n');
  });

  it('answers only to this machine’s own names, and only to reading', async () => {
    expect((await ask('/', { headers: { host: 'elsewhere.example' } })).status).toBe(403);
    expect((await ask('/', { method: 'POST' })).status).toBe(405);
  });

  it('takes the next port when the first is taken', async () => {
    const taken = Number(new URL(url).port);
    const second = await serve(folder, taken);
    expect(Number(new URL(second.url).port)).toBeGreaterThan(taken);
    second.server.close();
  });
});
