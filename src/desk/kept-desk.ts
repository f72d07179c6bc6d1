/** The desk with its keeper: who tells it of changes and of what was saved, and the question before leaving. */
import type { Host } from '../taskpane/host.js';
import type { DeskGrid } from './grid.js';
import { DeskKeeper, type KeeperParts } from './keeper.js';
import { keptStore } from './kept-store.js';
import { nextTask } from './vendor.js';

/** Settings that say how the page looks or what it has written, not what a person has worked out. */
const NO_WORK: ReadonlySet<string> = new Set(['language', 'built']);

/** Timers of a page that is not looked at run once a second, and nobody types into it. */
const pause = (): Promise<void> => (document.hidden ? Promise.resolve() : nextTask());

/**
 * @param there - the grid, undefined while it is on its way
 * @param coming - resolves with the grid
 * @param mayReplace - asks before the open workbook gives way to the kept one
 */
export function deskKeeper(
  there: () => DeskGrid | undefined,
  coming: Promise<DeskGrid>,
  mayReplace: KeeperParts['mayReplace'],
): DeskKeeper {
  const keeper = new DeskKeeper({
    store: keptStore(),
    source: () => there()?.source,
    takeUp: async (book, settings) => (await coming).takeUp(book, settings),
    pause,
    now: () => new Date(),
    ...(mayReplace && { mayReplace }),
  });
  void keeper.look();
  // a grid that does not come is said by whoever started it
  coming.then(
    (grid) => {
      grid.onEdit((sheet) => keeper.touched({ sheet, work: true }));
      keeper.gridCame();
    },
    () => undefined,
  );
  window.addEventListener('beforeunload', (event) => {
    keeper.flush();
    if (keeper.unsaved) event.preventDefault();
  });
  window.addEventListener('pagehide', () => keeper.flush());
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) keeper.flush();
  });
  return keeper;
}

/** The host, telling the keeper of settings that change and of the open workbook being saved. */
export function keptHost(host: Host, keeper: DeskKeeper): Host {
  const { wholeWorkbook } = host;
  /** how far the work was when a file was made */
  const files = new WeakMap<Uint8Array, number>();
  return {
    ...host,
    keeper,
    async writeSetting(key, value) {
      const before = await host.readSetting(key);
      await host.writeSetting(key, value);
      if (before !== value) keeper.touched({ work: !NO_WORK.has(key) });
    },
    ...(wholeWorkbook && {
      async wholeWorkbook() {
        const state = keeper.state;
        const bytes = await wholeWorkbook();
        files.set(bytes, state);
        return bytes;
      },
    }),
    async saveFile(name, bytes) {
      await host.saveFile(name, bytes);
      const state = files.get(bytes);
      if (state !== undefined) keeper.saved(state);
    },
  };
}
