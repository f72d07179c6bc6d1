/** Where the formula of a function goes, and what the cell shows then. A table of the planner is no place for it. */
import { css, html, nothing } from 'lit';
import type { Size } from '../blank-cells.js';
import type { Inserted, InsertWish } from '../host.js';
import { define, SessionElement } from '../parts/element.js';
import { button } from '../parts/pieces.js';
import { base } from '../parts/styles.js';
import type { Session } from '../session.js';
import { isOtherSheet } from '../sheets-read.js';
import { cornerWords } from '../words/corners.js';
import { formulaFor, workedOutBySheet, type Argument } from './function-arguments.js';
import type { FunctionEntry } from './function-data.js';
import { columnsOf, formatFor, resultOf, unitOf } from './function-results.js';
import { answerOf, type Answer } from './live-answer.js';

/** Formulas this panel has put into cells, by "sheet!address": only these may be replaced. */
const inserted = new WeakMap<Session, Map<string, string>>();
const insertedIn = (session: Session): Map<string, string> => {
  const known = inserted.get(session) ?? new Map<string, string>();
  inserted.set(session, known);
  return known;
};

interface Place {
  sheet: string;
  address: string;
  /** our own formula that is replaced there */
  over?: string;
}

export class FunctionInsert extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    entry: { attribute: false },
    list: { attribute: false },
    answer: { attribute: false },
    offers: { state: true },
    writing: { state: true },
  };
  declare entry: FunctionEntry;
  declare list: readonly Argument[];
  declare answer: Answer | undefined;
  /** blank cells to take instead of the chosen one */
  declare private offers: readonly Place[];
  declare private writing: boolean;
  private looked = '';

  static override styles = [
    base,
    css`
      code {
        display: block;
        font-family: ui-monospace, 'Cascadia Mono', Menlo, monospace;
        background: var(--mist);
        border-radius: 4px;
        padding: 6px 8px;
        overflow-wrap: anywhere;
      }
    `,
  ];

  constructor() {
    super();
    this.list = [];
    this.answer = undefined;
    this.offers = [];
    this.writing = false;
  }

  private get b() {
    return cornerWords(this.session.language).functions;
  }
  private get size(): Size {
    const { answer } = this;
    const rows = answer?.kind === 'value' && Array.isArray(answer.value) ? answer.value : [[0]];
    return { rows: Math.max(1, rows.length), columns: Math.max(1, rows[0]?.length ?? 1) };
  }
  private get isFilled(): boolean {
    const { chosen } = this.session;
    return chosen !== undefined && (chosen.shown !== '' || chosen.formula !== '');
  }
  private get isRefused(): boolean {
    return isOtherSheet(this.session.chosen?.sheet ?? '');
  }
  /** The chosen cell holds a formula of this function that was put there from here. */
  private get own(): Place | undefined {
    const { chosen } = this.session;
    if (!chosen || chosen.formula === '') return undefined;
    const known = insertedIn(this.session).get(`${chosen.sheet}!${chosen.address}`);
    const same = known === chosen.formula && known.startsWith(`=SOAK.${this.entry.id}(`);
    return same ? { sheet: chosen.sheet, address: chosen.address, over: known } : undefined;
  }

  /** Looks for blank cells again when another cell is chosen, or the result has another size. */
  protected override updated(): void {
    const { session, size } = this;
    const { chosen } = session;
    const key = chosen
      ? JSON.stringify([chosen.sheet, chosen.address, this.isFilled, size, session.sheets])
      : '';
    if (key === this.looked) return;
    this.looked = key;
    void session.attempt(async () => {
      const offers = await this.lookFor(size);
      if (key === this.looked) this.offers = offers;
    });
  }

  private async lookFor(size: Size): Promise<Place[]> {
    const { host, chosen, sheets } = this.session;
    if (!chosen || (!this.isFilled && !this.isRefused)) return [];
    const other = sheets.find((name) => !isOtherSheet(name));
    const sheet = this.isRefused ? other : chosen.sheet;
    if (sheet === undefined) return [];
    const found = await host.blankCells(size, sheet, this.isRefused ? undefined : chosen.address);
    // below the trees it would be read as a row of theirs; a column of formulas of ours is not read
    const safe = sheet === this.session.sheet ? found.slice(-1) : found;
    return safe.map((address) => ({ sheet, address }));
  }

  private wish({ over }: Partial<Place>): Omit<InsertWish, 'at'> {
    const { entry, list, answer } = this;
    const value = answer?.kind === 'value' ? answer.value : undefined;
    const first = Array.isArray(value) ? value[0]?.[0] : value;
    const result = columnsOf(entry.id)?.[0]?.[1] ?? resultOf(entry.id);
    const units = list[0]?.units ?? this.session.draft.units;
    const unit = columnsOf(entry.id) ? '' : unitOf(entry.id, units, list.at(-1)?.typed ?? '');
    const format = formatFor(result, this.w.unit(unit), first);
    return { format, ...(over !== undefined && { over }) };
  }

  /** What is in the way of writing anything, said and pointed at. What is shown may be older than what was typed last. */
  private async refuses(): Promise<boolean> {
    const { b, session, entry, list } = this;
    const answer = await answerOf(entry, list, session);
    this.answer = answer;
    if (answer?.kind === 'missing') session.say(b.answer.missing(answer.parameter), 'trouble');
    else if (answer?.kind === 'trouble')
      session.say(b.notInserted(session.spoken(answer.sentence).text), 'trouble');
    else return false;
    if (answer.parameter !== undefined)
      this.dispatchEvent(new CustomEvent('mend', { detail: answer.parameter }));
    return true;
  }

  private async insert(place: Place): Promise<void> {
    const { session, entry, list } = this;
    if (this.writing) return;
    this.writing = true;
    await session.attempt(async () => {
      if (await this.refuses()) return;
      const from = session.chosen?.sheet;
      const elsewhere = from !== undefined && place.sheet !== from;
      const formula = formulaFor(entry.id, list, elsewhere ? from : undefined);
      const { sheet, address } = place;
      const done = await session.host.insertFormula(formula, { at: { sheet, address }, ...this.wish(place) }); // prettier-ignore
      if (done.error === '') insertedIn(session).set(`${done.sheet}!${done.address}`, formula);
      this.tell(done);
    });
    // a cell that was offered may be filled now
    this.looked = '';
    this.writing = false;
  }

  private tell({ sheet, address, shown, error, trouble }: Inserted): void {
    const { b, session } = this;
    if (error !== '') {
      const why = trouble === '' ? (b.errors[error] ?? b.errors.other!) : session.spoken(trouble).text; // prettier-ignore
      return session.say(b.takenBack(address, error, why), 'trouble');
    }
    const where = sheet === session.chosen?.sheet ? address : b.onSheet(sheet, address);
    if (shown === '') return session.say(b.waits(where));
    // a narrow column shows #### where the value is fine
    const text = /^#+$/.test(shown) ? b.narrow : shown;
    session.say(b.inserted(where, text), 'fine');
  }

  /** On a sheet of its own, a row an answer, made where there is none. */
  private async insertOnAnswers(): Promise<void> {
    const { session, b, entry, list } = this;
    if (this.writing) return;
    const { sheet, header } = b.answers;
    const values = list
      .filter(({ formula }) => formula !== '')
      .map(({ parameter, formula }) => `${parameter.name} ${formula}`)
      .join(', ');
    await session.attempt(async () => {
      if (await this.refuses()) return;
      const row = await session.host.appendRow(sheet, header, [
        null,
        `${entry.id}: ${entry.description} ${values}`,
      ]);
      await this.insert({ sheet, address: `A${row}` });
    });
  }

  protected override render() {
    const { b, entry, list, session, offers, own, writing } = this;
    const { chosen } = session;
    const elsewhere = workedOutBySheet(list) === undefined;
    const free = chosen && !this.isFilled && !this.isRefused;
    const places: Place[] = free
      ? [{ sheet: chosen.sheet, address: chosen.address }]
      : [...(own ? [own] : []), ...offers].filter((p) => elsewhere || p.sheet === chosen?.sheet);
    return html`
      <code id="formula" translate="no">${formulaFor(entry.id, list)}</code>
      <p class=${free ? 'quiet gap' : 'trouble gap'} id="goes-into">${this.says()}</p>
      <div class="buttons">
        ${places.map((place, i) =>
          button(this.label(place), () => void this.insert(place), {
            main: i === 0,
            disabled: writing,
            id: i === 0 ? 'insert' : `insert-${i + 1}`,
          }),
        )}
        ${
          elsewhere
            ? button(b.onAnswers(b.answers.sheet), () => void this.insertOnAnswers(), {
                id: 'insert-new',
                disabled: writing,
              })
            : nothing
        }
      </div>
    `;
  }

  private label({ sheet, address, over }: Place): string {
    const { b, session } = this;
    if (over !== undefined) return b.replace(address);
    return b.insert(sheet === session.chosen?.sheet ? address : b.onSheet(sheet, address));
  }

  private says(): string {
    const { b, session, own } = this;
    const { chosen } = session;
    if (!chosen) return b.nowhere;
    if (this.isRefused) return b.refused(chosen.sheet);
    if (own) return b.holds(chosen.address);
    return this.isFilled ? b.filled(chosen.address) : b.where(chosen.address);
  }
}
define('sb-function-insert', FunctionInsert);
