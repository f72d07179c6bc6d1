/** What sideloading would do on each system, done where it can be done here. */
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { certificatesIn, readOptions, serveSecurely } from '../../scripts/sideload.mjs';
import { doStep, sideloadPlan, stepWords } from '../../scripts/sideload-plan.mjs';

const home = mkdtempSync(join(tmpdir(), 'soakbook-sideload-'));
const manifest = join(home, 'manifest.xml');
writeFileSync(manifest, '<OfficeApp />');
const id = 'd6700384-74dd-4062-af9c-503c23beefe2';
afterAll(() => rmSync(home, { recursive: true, force: true }));

describe('on a Mac', () => {
  const at = { platform: 'darwin', home, manifest, id };
  const target = join(
    home,
    `Library/Containers/com.microsoft.Excel/Data/Documents/wef/${id}.manifest.xml`,
  );

  it('the manifest is put into the folder wef, which is made, and taken away again', () => {
    for (const step of sideloadPlan({ ...at, remove: false }).steps) doStep(step);
    expect(readFileSync(target, 'utf8')).toBe('<OfficeApp />');
    for (const step of sideloadPlan({ ...at, remove: true }).steps) doStep(step);
    expect(existsSync(target)).toBe(false);
  });

  it('taking away what is not there is no error', () => {
    for (const step of sideloadPlan({ ...at, remove: true }).steps) doStep(step);
    expect(existsSync(target)).toBe(false);
  });
});

describe('on Windows', () => {
  it('the manifest is a value of the registry under the add-in’s id', () => {
    const at = { platform: 'win32', home, manifest: 'C:\\my book\\manifest.xml', id };
    const key = 'HKCU\\SOFTWARE\\Microsoft\\Office\\16.0\\Wef\\Developer';
    expect(sideloadPlan({ ...at, remove: false }).steps).toEqual([
      { run: ['reg', 'add', key, '/v', id, '/t', 'REG_SZ', '/d', at.manifest, '/f'] },
    ]);
    expect(sideloadPlan({ ...at, remove: true }).steps).toEqual([
      { run: ['reg', 'delete', key, '/v', id, '/f'] },
    ]);
  });
});

describe('on another system', () => {
  it('nothing is done, and the way by the web is explained', () => {
    const { steps, words } = sideloadPlan({ platform: 'linux', home, manifest, id, remove: false });
    expect(steps).toEqual([]);
    expect(words.join(' ')).toContain('Upload My Add-in');
    expect(words.join(' ')).toContain(manifest);
  });
});

describe('a step', () => {
  it('is said in words', () => {
    expect(stepWords({ copy: ['a', 'b'] })).toBe('copy a to b');
    expect(stepWords({ take: 'b' })).toBe('remove b');
    expect(stepWords({ run: ['reg', 'add'] })).toBe('run reg add');
  });

  it('that runs a program which fails, or is not there, is an error', () => {
    expect(() => doStep({ run: [process.execPath, '-e', 'process.exit(3)'] })).toThrow(
      'did not succeed',
    );
    expect(() => doStep({ run: ['no-such-program-here'] })).toThrow('did not succeed');
  });
});

describe('the server', () => {
  it('answers over https with the folder’s own certificate, for every page to read', async () => {
    const folder = join(home, 'certificates');
    const secrets = await certificatesIn(folder);
    if (process.platform !== 'win32')
      expect(statSync(join(folder, 'localhost.key')).mode & 0o077).toBe(0);
    expect((await certificatesIn(folder)).key).toEqual(secrets.key);
    const server = await serveSecurely(home, secrets, 0);
    const address = server.address();
    if (address === null || typeof address === 'string') throw new Error('no port');
    const answer = await new Promise<{ status: number | undefined; shared: unknown }>(
      (resolve, reject) => {
        const options = { host: 'localhost', port: address.port, path: '/manifest.xml' };
        request({ ...options, ca: secrets.ca }, (response) => {
          response.resume();
          resolve({
            status: response.statusCode,
            shared: response.headers['access-control-allow-origin'],
          });
        })
          .on('error', reject)
          .end();
      },
    );
    server.close();
    expect(answer).toEqual({ status: 200, shared: '*' });
  });
});

describe('the options', () => {
  it('are read, and anything else is refused with what there is', () => {
    expect(readOptions(['--dry-run', '--certs', 'x'])).toEqual({
      dryRun: true,
      remove: false,
      serveOnly: false,
      certs: 'x',
    });
    expect(() => readOptions(['--certs'])).toThrow('--certs needs a folder.');
    expect(() => readOptions(['--port'])).toThrow(
      '"--port" is no option of sideload; there are --dry-run, --remove, --serve-only, --certs.',
    );
  });
});
