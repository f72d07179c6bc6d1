/** "Write the order": lines, what the rules make of them, and the sheet they are written to once they are used. */
import { upperFirst } from '../../engine/first-letter.js';
import { css, html, nothing, type PropertyValues } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { plainLabel, type Cell } from '../../tables/cells.js';
import { hasHours, noHours, partClosed } from '../../workbook/order-closed.js';
import {
  isUntouched,
  linesOf,
  newLine,
  ORDER_MEANS,
  tableOf,
  theOthers,
  troublesOf,
  unnamedMeans,
  type KeptRow,
  type LineTrouble,
  type OrderLine,
  type OrderMeans,
} from '../../workbook/order-lines.js';
import {
  changed,
  changesOf,
  filledRows,
  orderSheet,
  type OrderChanges,
  type OrderSheet,
} from '../../workbook/order-sheet.js';
import type { NamedCells } from '../../workbook/rules-found.js';
import type { RulesReport } from '../../workers/plan-room.js';
import type { Receipt } from '../host.js';
import { rulesModel } from '../rules-sheets.js';
import { today } from '../session.js';
import { orderWords, type OrderWords } from '../words/order.js';
import { define, SessionElement } from './element.js';
import { OrderHours } from './order-hours.js';
import { OrderLinePart } from './order-line.js';
import { button, said } from './pieces.js';
import { base } from './styles.js';
import './rule-strip.js';

const isRules = (name: string): boolean => plainLabel(name) === 'rules';
/** Where rows go that make way for an order. */
const BEFORE = 'Rules before';
const NO_STAGES: Cell[][] = [['From', 'Stage']];

/** What the form is filled from. */
interface Source {
  kind: 'blank' | 'starter' | 'sheet' | 'own';
  /** what it is called */
  name: string;
  rows: readonly Cell[][];
  stages: Cell[][];
  /** the sheet the order goes to; undefined: one is made */
  sheet: OrderSheet | undefined;
}

export class OrderForm extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    isOpen: { state: true },
    closed: { state: true },
    lines: { state: true },
    preview: { state: true },
    tried: { state: true },
  };
  declare private isOpen: boolean;
  /** closes hours for everything, once it has any */
  declare private closed: OrderLine;
  declare private lines: readonly OrderLine[];
  /** what the rules make of the lines, and where each stands */
  declare private preview: { report: RulesReport; at: Map<number, number> } | undefined;
  /** the order was to be used as it stood */
  declare private tried: boolean;
  private kept: readonly KeptRow[] = [];
  private source: Source | undefined;
  /** what the source was when the form was filled */
  private filledFrom = '';
  private isChanged = false;
  private nextKey = 0;
  private turn = 0;

  static override styles = [
    base,
    css`
      section {
        margin-top: 8px;
        padding-top: 8px;
        border-top: 2px solid var(--water);
      }
      h3 {
        margin-top: 0;
      }
      .kept,
      .look li {
        margin-top: 8px;
        font-size: 0.8125rem;
        overflow-wrap: anywhere;
      }
    `,
  ];

  constructor() {
    super();
    [this.isOpen, this.closed, this.lines, this.preview, this.tried] = [false, noHours(0), [], undefined, false]; // prettier-ignore
  }

  private get o(): OrderWords {
    return orderWords(this.session.language);
  }

  /** 'other': a sheet Rules that holds no rules. */
  private read(): Source | 'other' {
    const { draft, rules, ruleSheets } = this.session;
    const sheet = orderSheet(ruleSheets, isRules);
    if (sheet === 'other') return sheet;
    const stages = ruleSheets.find(({ name }) => plainLabel(name) === 'stages')?.cells;
    const of = (kind: Source['kind'], name: string, rows: readonly Cell[][], own: Cell[][] = []): Source =>
      ({ kind, name, rows, stages: stages ?? own, sheet }); // prettier-ignore
    if (draft.starter !== '') return of('starter', draft.starter, rules?.rules ?? [], rules?.stages);
    if (sheet?.rules) return of('sheet', sheet.name, sheet.rules.rows);
    if (!sheet && draft.rules) return of('own', '', draft.rules, draft.stages);
    return of('blank', '', []);
  } // prettier-ignore

  private keyOf(source: Source | 'other'): string {
    if (source === 'other') return source;
    return JSON.stringify([source.kind, source.name, source.rows, source.sheet?.cells]);
  }

  private fill(): void {
    const source = this.read();
    this.filledFrom = this.keyOf(source);
    this.source = source === 'other' ? undefined : source;
    const { lines: all, kept } = linesOf(this.source?.rows ?? [], this.nextKey);
    this.nextKey += all.length;
    const { closed, lines } = partClosed(all);
    [this.closed, this.kept] = [closed ?? noHours(this.nextKey++), kept];
    this.lines = lines.length > 0 || source === 'other' ? lines : [newLine(this.nextKey++)];
    [this.isChanged, this.tried, this.preview] = [false, false, undefined];
    void this.look();
  }

  private async open(): Promise<void> {
    this.fill();
    this.show(true);
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('h3')?.focus();
  }
  private async close(): Promise<void> {
    this.show(false);
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('#write-order')?.focus();
  }
  private show(isOpen: boolean): void {
    this.isOpen = isOpen;
    this.dispatchEvent(new CustomEvent('writing', { detail: isOpen }));
  }

  /** Rules that change while nothing was written here are read again. */
  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    if (this.isOpen && !this.isChanged && this.keyOf(this.read()) !== this.filledFrom) this.fill();
  }

  private become(lines: readonly OrderLine[], closed = this.closed): void {
    [this.lines, this.closed, this.isChanged] = [lines, closed, true];
    void this.look();
  }
  /** Every row of the order; the only line is none where hours are closed and it says nothing. */
  private get all(): OrderLine[] {
    const { closed, lines } = this;
    if (!hasHours(closed)) return [...lines];
    return [closed, ...(lines.length === 1 ? lines.filter((line) => !isUntouched(line)) : lines)];
  }
  private async add(line: OrderLine): Promise<void> {
    this.become([...this.lines, line]);
    await this.updateComplete;
    this.partOf(line.key)?.focusField();
  }
  private addLine(): Promise<void> {
    // hours of a line mostly hold for all of them, where none are given for everything
    const last = hasHours(this.closed) ? undefined : this.lines.at(-1);
    const { span, from, to, from2, to2, words } = last ?? newLine(0);
    const hours = last?.verdict === 'ban' ? {} : { span, from, to, from2, to2, words };
    return this.add({ ...newLine(this.nextKey++), ...hours });
  }
  private banUnnamed(means: readonly OrderMeans[]): Promise<void> {
    return this.add({ ...newLine(this.nextKey++), means, verdict: 'ban' });
  }
  private copy(line: OrderLine): Promise<void> {
    const { origin: _, ...rest } = line;
    return this.add({ ...rest, key: this.nextKey++ });
  }
  private async removeLine(line: OrderLine): Promise<void> {
    this.become(this.lines.filter((l) => l !== line));
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('#add-line')?.focus();
  }
  private partOf(key: number): OrderLinePart | OrderHours | undefined {
    return [...this.renderRoot.querySelectorAll('sb-order-hours, sb-order-line')].find(
      (part): part is OrderLinePart | OrderHours =>
        (part instanceof OrderLinePart || part instanceof OrderHours) && part.line.key === key,
    );
  }

  /** Troubles to be shown: what is not filled yet only once the order was to be used. */
  private shown(line: OrderLine): LineTrouble[] {
    const all = troublesOf(line);
    return this.tried ? all : all.filter(({ kind }) => kind !== 'noMeans' && kind !== 'half');
  }

  /** The cells of the Rules sheet as they would be, or the table that would be put on a new one. */
  private placed(lines: readonly OrderLine[]): { sheets: NamedCells[]; rules: Cell[][]; at: Map<number, number> } {
    const { source, kept } = this;
    const others = this.session.ruleSheets.filter(({ name }) => !isRules(name));
    if (!source?.sheet) {
      const { rows, at } = tableOf(source?.rows[0] ?? [], lines, kept);
      return { sheets: [], rules: rows, at };
    }
    const { changes, at } = this.changes(source.sheet, lines);
    const cells = changed(source.sheet.cells, changes);
    return { sheets: [{ name: source.sheet.name, cells }, ...others], rules: [], at };
  } // prettier-ignore

  private changes(sheet: OrderSheet, lines: readonly OrderLine[]): OrderChanges {
    const replace = this.source?.kind === 'starter';
    return changesOf(sheet, lines, replace ? [] : this.kept, replace);
  }

  /** Asks the rules' own reader about the lines that can be used. */
  private async look(): Promise<void> {
    const turn = ++this.turn;
    const { session, source } = this;
    const lines = this.all.filter((line) => troublesOf(line).length === 0);
    const { sheets, rules, at } = this.placed(lines);
    const ask = session.ask({ ...session.draft, starter: '', rules, stages: source?.stages ?? [] });
    const trees = (session.reading?.usable ?? 0) > 0 ? ask.trees : { cells: [] };
    await session.attempt(async () => {
      const report = await session.room.rules({ ...ask, trees, sheets });
      if (turn === this.turn) this.preview = { report, at };
    });
  }

  private async use(): Promise<void> {
    const { session, o, all: lines } = this;
    this.tried = true;
    if (this.keyOf(this.read()) !== this.filledFrom) return session.say(o.stale, 'trouble');
    if (lines.length === 0) return session.say(o.noLines, 'trouble');
    const bad = lines.find((line) => troublesOf(line).length > 0);
    if (bad) {
      session.say(o.first, 'trouble');
      await this.updateComplete;
      const part = this.partOf(bad.key);
      await part?.updateComplete;
      return part?.focusField(troublesOf(bad)[0]?.field);
    }
    await session.attempt(() => this.write());
  }

  private async write(): Promise<void> {
    const { session, o, source, all: lines } = this;
    if (source?.sheet) {
      const { changes, refused } = this.changes(source.sheet, lines);
      const { name } = source.sheet;
      if (refused)
        return session.say(
          refused.kind === 'rows' ? o.noRows(name) : o.noColumn(name, refused.column),
          'trouble',
        );
      const aside = this.replaced(source) > 0 ? await this.putAside(source.sheet) : undefined;
      try {
        await session.host.changeCells(name, changes);
      } catch (error) {
        // the rows did not make way, so no copy of them is needed
        if (aside) await session.host.removeSheets(aside);
        throw error;
      }
      await this.done(changes.length === 0 ? o.unchanged : o.used(name));
      return;
    }
    const { rows } = tableOf(source?.rows[0] ?? [], lines, this.kept);
    const stages = source?.stages ?? [];
    const model = rulesModel(rows, stages.length > 0 ? stages : NO_STAGES, today());
    // stages that stand on a sheet stay there; without any no sheet of them is needed
    const hasSheet = session.ruleSheets.some(({ name }) => plainLabel(name) === 'stages');
    const names = hasSheet || stages.length === 0 ? ['Rules'] : ['Rules', 'Stages'];
    const sheets = model.sheets.filter(({ name }) => names.includes(name));
    const { sheets: written } = await this.writeModel({ ...model, sheets });
    await this.done(o.used(written[0]?.name ?? ''));
  }

  private writeModel(model: ReturnType<typeof rulesModel>): Promise<Receipt> {
    const { session, w } = this;
    return session.host.writeModel(model, {
      live: false,
      onProgress: (_done, _total, sheet) => session.say(w.panel.sheet(sheet)),
      signal: { aborted: false },
    });
  }

  /** A copy of the rows that make way, on a sheet nobody reads. */
  private async putAside({ rules }: OrderSheet): Promise<Receipt | undefined> {
    if (!rules) return undefined;
    const model = rulesModel(filledRows(rules), [], today());
    const [sheet] = model.sheets;
    return sheet && this.writeModel({ ...model, sheets: [{ ...sheet, name: BEFORE }] });
  }

  private async done(sentence: string): Promise<void> {
    const { session } = this;
    this.isChanged = false;
    await this.close();
    session.setLeaveOutBroken(false);
    await session.change({ starter: '' });
    session.say(sentence, 'fine');
  }

  /** Rows of a sheet that a starter table takes the place of. */
  private replaced({ kind, sheet }: Source): number {
    return kind === 'starter' && sheet?.rules ? filledRows(sheet.rules).length - 1 : 0;
  }

  protected override render() {
    const { o, isOpen } = this;
    if (!isOpen)
      return html`<div class="buttons">
        ${button(o.open, () => void this.open(), { id: 'write-order' })}
      </div>`;
    const { source } = this;
    return html`<section aria-labelledby="order-title">
      <h3 id="order-title" tabindex="-1">${o.title}</h3>
      ${source ? this.form(source) : this.otherSheet()}
    </section>`;
  }

  private otherSheet() {
    const { o, session } = this;
    const name = session.ruleSheets.find((sheet) => isRules(sheet.name))?.name ?? '';
    return html`<p class="trouble" id="other-sheet">${o.other(name)}</p>
      <div class="buttons">
        ${button(o.close, () => void this.close(), { id: 'close-order' })}
      </div>`;
  }

  private from(source: Source): string {
    const { from } = this.o;
    if (source.kind === 'starter') return from.starter(this.session.spoken(source.name).text);
    if (source.kind === 'sheet') return from.sheet(source.name);
    return from[source.kind];
  }

  private form(source: Source) {
    const { o, f, closed, lines, session, preview } = this;
    const replaced = this.replaced(source);
    const stale = this.keyOf(this.read()) !== this.filledFrom;
    const columns = session.rules?.columns ?? [];
    return html`
      <p class="quiet">${o.lead}</p>
      <p class="quiet" id="filled-from">${this.from(source)}</p>
      ${replaced === 0 || !source.sheet ? nothing : html`<p class="trouble gap" id="replaces">${o.replaces(f, replaced, source.sheet.name)}</p>`}
      ${
        stale
          ? html`<p class="trouble gap" id="stale">${o.stale}</p>
              <div class="buttons">${button(o.refill, () => this.fill(), { small: true, id: 'refill' })}</div>`
          : nothing
      }
      ${this.keptRows(source)}
      <sb-order-hours
        .session=${session}
        .line=${closed}
        .troubles=${this.shown(closed)}
        .sentence=${this.sentenceOf(closed)}
        @become=${({ detail }: CustomEvent<OrderLine>) => this.become(this.lines, detail)}
      ></sb-order-hours>
      ${repeat(
        lines,
        ({ key }) => key,
        (line, i) => html`<sb-order-line
          role="group"
          aria-label=${o.line(i + 1)}
          .session=${session}
          .line=${line}
          .number=${i + 1}
          .others=${theOthers(lines, line)}
          .troubles=${this.shown(line)}
          .sentence=${this.sentenceOf(line)}
          .columns=${columns}
          .hasClosed=${hasHours(closed)}
          @become=${({ detail }: CustomEvent<OrderLine>) =>
            this.become(this.lines.map((l) => (l.key === detail.key ? detail : l)))}
          @copy-line=${() => void this.copy(line)}
          @remove-line=${() => void this.removeLine(line)}
        ></sb-order-line>`,
      )}
      <div class="buttons">${button(o.add, () => void this.addLine(), { id: 'add-line' })}</div>
      ${preview ? this.outcome(preview.report) : nothing} ${this.unnamed()}
      <div class="buttons">
        ${button(o.use, () => void this.use(), { main: true, id: 'use-order' })}
        ${button(o.close, () => void this.close(), { id: 'close-order' })}
      </div>
    `;
  } // prettier-ignore

  private sentenceOf({ key }: OrderLine): string {
    const row = this.preview?.at.get(key);
    return this.preview?.report.sentences.find((s) => s.row === row)?.sentence ?? '';
  }

  private keptRows({ kind, sheet }: Source) {
    if (kind === 'starter') return nothing;
    const first = sheet?.rules?.headerRow ?? 1;
    return this.kept.map(
      ({ row, sentences }) =>
        html`<div class="kept" data-row=${first + row}>
          <p class="trouble">${this.o.kept(this.w.rules.row(first + row))}</p>
          ${sentences.map((sentence) => {
            const { text } = this.session.spoken(sentence);
            return html`<p>${upperFirst(text)}</p>`;
          })}
        </div>`,
    );
  }

  /** Means no line names, once something is said that they might be missed in. */
  private unnamed() {
    const { o, closed, lines } = this;
    const unnamed = unnamedMeans(lines);
    const none = unnamed.length === ORDER_MEANS.length;
    const hours = hasHours(closed);
    if (unnamed.length === 0 || (none && !hours)) return nothing;
    const names = none ? [] : unnamed.map((word) => o.meansWords[word]);
    const bans = lines.some(({ means, verdict }) => means === null && verdict === 'ban');
    return html`<p class="gap" id="unnamed">${o.unnamed(names, hours, bans)}</p>
      ${none ? nothing : html`<div class="buttons">${button(o.banUnnamed, () => void this.banUnnamed(unnamed), { small: true, id: 'ban-unnamed' })}</div>`}`;
  } // prettier-ignore

  private outcome({ problems, strip }: RulesReport) {
    const { o, w, session } = this;
    return html`
      ${problems.length === 0
        ? nothing
        : html`<ul class="look" id="order-problems">
            ${problems.map(
              ({ sentence }) => html`<li><strong>${o.look}</strong>: ${said(session, sentence)}</li>`,
            )}
          </ul>`}
      <h3 class="unseen">${o.strip}</h3>
      ${
        strip === undefined
          ? html`<p class="quiet gap">${w.rules.noStrip}</p>`
          : html`<sb-rule-strip id="order-strip" .session=${session} .strip=${strip}></sb-rule-strip>`
      }
    `;
  } // prettier-ignore
}
define('sb-order', OrderForm);
