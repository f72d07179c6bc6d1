/** Sheets this panel has written into the workbook: kept there, so that they can be taken away again later. */
import type { Host, Receipt } from './host.js';
import type { Session } from './session.js';

const KEY = 'built';

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;
const isReceipt = (value: unknown): value is Receipt =>
  isRecord(value) &&
  Array.isArray(value['sheets']) &&
  value['sheets'].every(
    (sheet) =>
      isRecord(sheet) && typeof sheet['key'] === 'string' && typeof sheet['name'] === 'string',
  ) &&
  Array.isArray(value['names']) &&
  value['names'].every((name) => typeof name === 'string');

/** Receipts from the text kept in the workbook; what is not ours gives none, since nothing may be taken away by it. */
export function receiptsFrom(kept: string): Receipt[] {
  if (kept === '') return [];
  try {
    const read: unknown = JSON.parse(kept);
    return Array.isArray(read) ? read.filter(isReceipt) : [];
  } catch {
    return [];
  }
}

export class Built {
  /** oldest first; only those of which sheets are still there */
  receipts: Receipt[] = [];
  /** what this page has kept in the workbook last; another text is another workbook's */
  private kept = '';

  constructor(private readonly host: Host) {}

  /** Reads what the workbook keeps. The desk's keys end with the page: there only this page's own receipts hold. */
  async load(): Promise<void> {
    const text = await this.host.readSetting(KEY);
    if (text !== this.kept) {
      this.kept = text;
      this.receipts = this.host.kind === 'desk' ? [] : receiptsFrom(text);
    }
    await this.forgetGone();
  }

  /** A person may have deleted sheets, or opened another workbook. */
  private async forgetGone(): Promise<void> {
    const there = new Set(await this.host.openSheets());
    this.receipts = this.receipts.filter(({ sheets }) =>
      sheets.some(({ name }) => there.has(name)),
    );
  }

  async add({ sheets, names }: Receipt): Promise<void> {
    this.receipts = [...this.receipts, { sheets, names }];
    await this.keep();
  }

  /** Takes away the sheets of the last build. */
  async undo(): Promise<Receipt | undefined> {
    const last = this.receipts.at(-1);
    if (!last) return undefined;
    await this.host.removeSheets(last);
    this.receipts = this.receipts.slice(0, -1);
    await this.keep();
    return last;
  }

  private async keep(): Promise<void> {
    const { receipts } = this;
    this.kept = receipts.length === 0 ? '' : JSON.stringify(receipts);
    await this.host.writeSetting(KEY, this.kept);
  }
}

const known = new WeakMap<Session, Built>();

/** What was written in a session, whichever step one is in. */
export function builtOf(session: Session): Built {
  const built = known.get(session) ?? new Built(session.host);
  known.set(session, built);
  return built;
}
