/**
 * Where the spreadsheet program looks for the manifest of an add-in under development, by platform.
 *
 * From the program's public documentation and its makers' own tools, from memory; not tried in the real program:
 * - Mac: manifests in the folder wef of the program's container;
 * - Windows: a value of the registry's key Wef\Developer, named by the add-in's id, holding the manifest's path;
 * - elsewhere: the program on the web, where a person uploads the file.
 */
import { copyFileSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { spawnSync } from 'node:child_process';

const DEVELOPER_KEY = 'HKCU\\SOFTWARE\\Microsoft\\Office\\16.0\\Wef\\Developer';
const CONTAINER = ['Library', 'Containers', 'com.microsoft.Excel', 'Data', 'Documents', 'wef'];

/**
 * What putting the manifest in its place, or taking it away, means here.
 *
 * @param {{ platform: string, home: string, manifest: string, id: string, remove: boolean }} at
 * @returns {{ steps: ({ copy: [string, string] } | { take: string } | { run: string[] })[], words: string[] }}
 */
export function sideloadPlan({ platform, home, manifest, id, remove }) {
  if (platform === 'darwin') {
    const target = join(home, ...CONTAINER, `${id}.manifest.xml`);
    return remove
      ? { steps: [{ take: target }], words: ['Start Excel again; the add-in is gone.'] }
      : {
          steps: [{ copy: [manifest, target] }],
          words: ['Start Excel. Choose Home, Add-ins, and Soakbook below Developer Add-ins.'],
        };
  }
  if (platform === 'win32') {
    const value = ['/v', id];
    return remove
      ? {
          steps: [{ run: ['reg', 'delete', DEVELOPER_KEY, ...value, '/f'] }],
          words: ['Start Excel again; the add-in is gone.'],
        }
      : {
          steps: [
            { run: ['reg', 'add', DEVELOPER_KEY, ...value, '/t', 'REG_SZ', '/d', manifest, '/f'] },
          ],
          words: [
            'Start Excel. Soakbook is on the Data tab, or below Home, Add-ins, Developer Add-ins.',
          ],
        };
  }
  return {
    steps: [],
    words: remove
      ? ['In Excel on the web choose the add-in’s menu and Remove.']
      : [
          'There is no Excel for this system. In Excel on the web choose Home, Add-ins, More Add-ins, Upload My Add-in,',
          `and give it ${manifest}`,
          'The browser must be on this machine and trust the certificate of localhost.',
        ],
  };
}

/** A step in words. */
export const stepWords = (step) =>
  'copy' in step
    ? `copy ${step.copy[0]} to ${step.copy[1]}`
    : 'take' in step
      ? `remove ${step.take}`
      : `run ${step.run.join(' ')}`;

/**
 * Does one step.
 *
 * @throws Error when a program it runs does not succeed
 */
export function doStep(step) {
  if ('copy' in step) {
    const [from, to] = step.copy;
    mkdirSync(dirname(to), { recursive: true });
    copyFileSync(from, to);
  } else if ('take' in step) {
    if (existsSync(step.take)) rmSync(step.take);
  } else {
    const [program, ...args] = step.run;
    const { status, error } = spawnSync(program, args, { stdio: ['ignore', 'ignore', 2] });
    if (status !== 0)
      throw new Error(
        `"${step.run.join(' ')}" did not succeed${error ? `: ${error.message}` : ''}.`,
      );
  }
}
