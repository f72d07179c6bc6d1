/** When the desk keeps its workbook, what it then writes, and when leaving would lose work. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DeskKeeper } from '../../src/desk/keeper.js';
import type { BookFrame, CellData } from '../../src/desk/kept-form.js';
import type { KeptSource } from '../../src/desk/kept-grid.js';
import type { Kept, KeptStore, Writing } from '../../src/desk/kept-store.js';

/** One store for several pages, in memory. */
function memoryStore() {
  let head: unknown;
  let parts = new Map<string, string>();
  const writings: Writing[] = [];
  let refusal: Error | undefined;
  const store: KeptStore = {
    head: async () => structuredClone(head),
    all: async (): Promise<Kept | undefined> =>
      head === undefined ? undefined : { head: structuredClone(head), parts: new Map(parts) },
    async write(writing) {
      if (refusal) throw refusal;
      const there = (head as { stamp?: string } | undefined)?.stamp;
      if (writing.after !== undefined && writing.after !== there) return false;
      if (writing.after === undefined) parts = new Map();
      for (const [key, pieces] of writing.texts) {
        for (const old of [...parts.keys()]) if (old.startsWith(`${key}/`)) parts.delete(old);
        pieces.forEach((text, i) => parts.set(`${key}/${i}`, text));
      }
      head = structuredClone(writing.head);
      writings.push(writing);
      return true;
    },
    async clear() {
      head = undefined;
      parts = new Map();
    },
  };
  return { store, writings, refuse: (error?: Error) => void (refusal = error), parts: () => parts };
}

function page(store: KeptStore) {
  const sheets: Record<string, CellData> = { a: { 0: { 0: { v: 1 } } }, b: { 0: { 0: { v: 2 } } } };
  let pauses = 0;
  let atPause: (() => void) | undefined;
  const frame = (): BookFrame => ({
    title: 'street',
    front: 'a',
    styles: {},
    names: [],
    settings: [['draft', 'x']],
    sheets: Object.keys(sheets).map((key) => ({ key, name: key, frame: {} })),
  });
  const source: KeptSource = { frame, cells: (key) => sheets[key] ?? {}, models: () => new Map() };
  const keeper = new DeskKeeper({
    store,
    source: () => source,
    takeUp: async () => undefined,
    pause: async () => {
      pauses++;
      atPause?.();
    },
    now: () => new Date(),
  });
  return {
    keeper,
    sheets,
    pauses: () => pauses,
    whilePausing: (work?: () => void) => void (atPause = work),
  };
}

const quiet = (ms = 1100): Promise<unknown> => vi.advanceTimersByTimeAsync(ms);
const sample = { name: 'sample.csv', own: false };
const file = { name: 'street.xlsx', own: true };

beforeEach(() => void vi.useFakeTimers({ now: new Date(2026, 10, 26, 9, 40) }));
afterEach(() => void vi.useRealTimers());

describe('the keeper', () => {
  it('leaves the sample alone until somebody works on it', async () => {
    const { store, writings } = memoryStore();
    const { keeper } = page(store);
    keeper.opened(sample);
    keeper.touched({ work: false });
    await quiet(60_000);
    expect(writings).toHaveLength(0);
    expect(keeper.unsaved).toBe(false);
    keeper.touched({ sheet: 'a', work: true });
    expect(keeper.unsaved).toBe(true);
    await quiet();
    expect(writings).toHaveLength(1);
    expect(keeper.copy).toEqual({ name: 'sample.csv', at: '2026-11-26T09:41' });
  });

  it('keeps a file from the start, and asks nothing about it', async () => {
    const { store, writings } = memoryStore();
    const { keeper } = page(store);
    keeper.opened(file);
    expect(keeper.unsaved).toBe(false);
    await quiet();
    expect([...writings[0]!.texts.keys()]).toEqual(['a', 'b']);
  });

  it('remembers nothing of sheets that came and went', async () => {
    const { store } = memoryStore();
    const { keeper, sheets } = page(store);
    keeper.opened(file);
    for (let i = 1; i <= 5; i++) {
      sheets[`written-${i}`] = { 0: { 0: { v: i } } };
      keeper.touched({ sheet: `written-${i}`, work: true });
      await quiet();
      delete sheets[`written-${i}`];
      keeper.touched({ sheet: `written-${i}`, work: true });
      await quiet();
    }
    const { filled, written, dirty } = keeper as unknown as Record<string, Map<string, unknown>>;
    expect([filled, written, dirty].map((each) => [...each!.keys()])).toEqual([['a', 'b'], ['a', 'b'], []]); // prettier-ignore
  });

  it('waits until nobody types, but not longer than six seconds', async () => {
    const { store, writings } = memoryStore();
    const { keeper } = page(store);
    keeper.opened(file);
    await quiet();
    for (let i = 0; i < 9; i++) {
      keeper.touched({ sheet: 'a', work: true });
      await vi.advanceTimersByTimeAsync(500);
    }
    expect(writings).toHaveLength(1);
    for (let i = 0; i < 4; i++) {
      keeper.touched({ sheet: 'a', work: true });
      await vi.advanceTimersByTimeAsync(500);
    }
    expect(writings).toHaveLength(2);
  });

  it('writes the sheets that changed, drops those that went, and nothing twice', async () => {
    const { store, writings, parts } = memoryStore();
    const { keeper, sheets } = page(store);
    keeper.opened(file);
    await quiet();
    sheets['a'] = { 0: { 0: { v: 9 } } };
    keeper.touched({ sheet: 'a', work: true });
    await quiet();
    expect([...writings[1]!.texts.keys()]).toEqual(['a']);
    delete sheets['b'];
    keeper.touched({ sheet: 'b', work: true });
    await quiet();
    expect([...parts().keys()]).toEqual(['a/0']);
    keeper.flush();
    await quiet();
    expect(writings).toHaveLength(3);
  });

  it('begins again when a change comes between, and takes no pauses when changes keep coming', async () => {
    const { store, writings } = memoryStore();
    const { keeper, sheets, whilePausing } = page(store);
    keeper.opened(file);
    let n = 1;
    whilePausing(() => {
      sheets['a'] = { 0: { 0: { v: ++n } } };
      keeper.touched({ sheet: 'a', work: true });
    });
    await quiet();
    whilePausing();
    expect(writings[0]!.texts.get('a')).toEqual([JSON.stringify({ 0: { 0: { v: n } } })]);
    expect(n).toBe(4);
  });

  it('takes no pauses when the page is left', async () => {
    const { store, writings } = memoryStore();
    const { keeper, pauses } = page(store);
    keeper.opened(file);
    keeper.flush();
    await vi.advanceTimersByTimeAsync(0);
    expect(writings).toHaveLength(1);
    expect(pauses()).toBe(0);
  });

  it('keeps a work as it is before and after it, nothing half done, also when the page is left meanwhile', async () => {
    const { store, writings, parts } = memoryStore();
    const { keeper, sheets } = page(store);
    keeper.opened(file);
    let end = (): void => undefined;
    let within: () => void = () => undefined;
    const begun = new Promise<void>((resolve) => (within = resolve));
    const work = keeper.whole(async () => {
      within();
      await new Promise<void>((resolve) => (end = resolve));
      return 7;
    });
    await begun;
    // at once, not after the quiet second
    expect(writings).toHaveLength(1);
    sheets['c'] = { 0: { 0: { v: 'half' } } };
    keeper.touched({ sheet: 'c', work: true });
    await quiet(60_000);
    keeper.flush();
    await quiet(0);
    expect(writings).toHaveLength(1);
    sheets['c'] = { 0: { 0: { v: 'whole' } } };
    keeper.touched({ sheet: 'c', work: true });
    end();
    expect(await work).toBe(7);
    await quiet();
    expect(writings).toHaveLength(2);
    expect(parts().get('c/0')).toContain('whole');
  });

  it('keeps on after a work that failed, and after one inside another only when both are done', async () => {
    const { store, writings } = memoryStore();
    const { keeper } = page(store);
    keeper.opened(file);
    await quiet();
    const failed = keeper.whole(async () => {
      await keeper.whole(async () => keeper.touched({ sheet: 'a', work: true }));
      await quiet(60_000);
      expect(writings).toHaveLength(1);
      throw new Error('stopped');
    });
    await expect(failed).rejects.toThrow('stopped');
    await quiet();
    expect(writings).toHaveLength(2);
  });

  it('has nothing unsaved after saving, but for what was changed since the file was made', () => {
    const { keeper } = page(memoryStore().store);
    keeper.opened(file);
    keeper.touched({ work: true });
    const made = keeper.state;
    keeper.touched({ work: true });
    keeper.saved(made);
    expect(keeper.unsaved).toBe(true);
    keeper.saved(keeper.state);
    expect(keeper.unsaved).toBe(false);
  });

  it('does not put a changed sample in the place of the workbook that waits', async () => {
    const { store, writings } = memoryStore();
    const before = page(store).keeper;
    before.opened(file);
    await quiet();
    const { keeper } = page(store);
    await keeper.look();
    keeper.opened(sample);
    expect(keeper.offer?.name).toBe('street.xlsx');
    keeper.touched({ sheet: 'a', work: true });
    await quiet(60_000);
    expect(keeper.waits).toBe(true);
    expect(writings).toHaveLength(1);
    await keeper.forget();
    await quiet();
    expect(writings.at(-1)!.head.name).toBe('sample.csv');
  });

  it('opens a workbook again as unsaved as it was', async () => {
    const { store } = memoryStore();
    const { keeper: before } = page(store);
    before.opened(file);
    before.touched({ work: true });
    await quiet();
    const { keeper } = page(store);
    await keeper.look();
    keeper.opened(sample);
    await keeper.openAgain();
    expect([keeper.unsaved, keeper.offer, keeper.copy?.name]).toEqual([true, undefined, 'street.xlsx']); // prettier-ignore
    await store.clear();
    await keeper.look();
    await expect(keeper.openAgain()).rejects.toThrow('the kept workbook is no longer there');
  });

  it('writes whole when another page was there meanwhile', async () => {
    const { store, writings, parts } = memoryStore();
    const [one, two] = [page(store), page(store)];
    one.keeper.opened(file);
    await quiet();
    two.sheets['c'] = { 0: { 0: { v: 3 } } };
    two.keeper.opened({ name: 'other.xlsx', own: true });
    await quiet();
    expect([...parts().keys()]).toEqual(['a/0', 'b/0', 'c/0']);
    one.keeper.touched({ sheet: 'a', work: true });
    await quiet();
    expect(writings.at(-1)!.after).toBeUndefined();
    expect([...parts().keys()]).toEqual(['a/0', 'b/0']);
  });

  it('keeps nothing more of a workbook whose copy was forgotten, until asked', async () => {
    const { store, parts } = memoryStore();
    const { keeper } = page(store);
    keeper.opened(file);
    await quiet();
    keeper.touched({ sheet: 'a', work: true });
    await keeper.forget();
    keeper.touched({ sheet: 'a', work: true });
    keeper.flush();
    await quiet(60_000);
    expect(parts().size).toBe(0);
    keeper.keepOn();
    await quiet();
    expect(parts().size).toBe(2);
  });

  it.each([
    ['QuotaExceededError', 'full'],
    ['SecurityError', 'refused'],
  ])('says why nothing is kept, and that it is again: %s', async (error, trouble) => {
    const { store, refuse } = memoryStore();
    const { keeper } = page(store);
    refuse(new DOMException('no', error));
    keeper.opened(file);
    await quiet();
    expect(keeper.trouble).toBe(trouble);
    refuse();
    keeper.touched({ work: true });
    await quiet();
    expect([keeper.trouble, keeper.copy?.name]).toEqual([undefined, 'street.xlsx']);
  });
});
