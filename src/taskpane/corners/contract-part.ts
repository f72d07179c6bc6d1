/** The base of the corner's parts: sheets found by their names, asked again when they, the plan or a wish change. */
import { css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Cell } from '../../tables/cells.js';
import { plainLabel } from '../../tables/cells.js';
import type { WorkbookModel } from '../../workbook/model.js';
import { SessionElement } from '../parts/element.js';
import { button, planner, said } from '../parts/pieces.js';
import { trialOf } from '../trial.js';
import { buildWords } from '../words/build.js';
import { contractWords, type ContractWords } from '../words/contract.js';

export abstract class ContractPart extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    trouble: { state: true },
    all: { state: true },
  };
  /** why there is no answer, "" when there is one */
  declare protected trouble: string;
  /** lists that are shown whole */
  declare protected all: ReadonlySet<string>;
  private asked: readonly unknown[] = [];
  private turn = 0;
  private latest: Promise<void> = Promise.resolve();

  static partStyles = css`
    .rows li {
      display: grid;
      grid-template-columns: auto minmax(0, 1fr);
      gap: 8px;
      padding: 6px 0;
      border-bottom: 1px solid var(--rule);
      align-items: start;
      font-size: 0.8125rem;
    }
    .rows li > div {
      padding-top: 2px;
      overflow-wrap: anywhere;
    }
    strong {
      font-weight: 600;
    }
    .rows li > div > .gap:first-child {
      margin-top: 0;
    }
    .place {
      color: var(--loam);
      white-space: nowrap;
      padding-top: 2px;
    }
  `;

  constructor() {
    super();
    this.trouble = '';
    this.all = new Set();
  }

  protected get c(): ContractWords {
    return contractWords(this.session.language);
  }
  /** There is a plan, and the room holds that one and not a tried one. */
  protected get planned(): boolean {
    return this.session.plan !== undefined && !trialOf(this.session).active;
  }

  /** What the answer rests on beside the workbook and the plan. */
  protected wishes(): readonly unknown[] {
    return [];
  }
  /** Asks; gives what puts the answer in place, done only if nothing else was asked meanwhile. */
  protected abstract look(): Promise<() => void>;

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const { read, plan, draft } = this.session;
    const now = [read, plan, draft.units, this.planned, ...this.wishes()];
    if (now.length === this.asked.length && now.every((value, i) => value === this.asked[i])) return;
    this.asked = now;
    this.latest = this.lookAgain();
  }

  private async lookAgain(): Promise<void> {
    const turn = ++this.turn;
    try {
      const put = await this.look();
      if (turn !== this.turn) return;
      put();
      this.trouble = '';
    } catch (error) {
      if (turn === this.turn) this.trouble = this.session.sentenceOf(error);
    }
    this.requestUpdate();
  }

  /** Waits for the answer to what was changed, and until it is drawn; what it draws may take the focus. */
  protected async answered(focus = ''): Promise<void> {
    await this.updateComplete;
    // another change may have asked again meanwhile
    for (let waited: Promise<void> | undefined; waited !== this.latest;) {
      waited = this.latest;
      await waited;
      await this.updateComplete;
    }
    if (focus !== '') this.renderRoot.querySelector<HTMLElement>(focus)?.focus();
  }

  /** The sheet of the workbook by that name, in any letter case. */
  protected sheetNamed(name: string): string | undefined {
    return this.session.sheets.find((sheet) => plainLabel(sheet) === name);
  }
  protected async cellsOf(name: string): Promise<Cell[][] | undefined> {
    const sheet = this.sheetNamed(name);
    return sheet === undefined ? undefined : (await this.session.host.readTable(sheet)).cells;
  }

  /** Writes a sheet and says so; gives the name it got. */
  protected async write(model: WorkbookModel, says: (name: string) => string): Promise<void> {
    const { session } = this;
    await session.attempt(async () => {
      const { sheets } = await session.host.writeModel(model, {
        live: false,
        onProgress: (_done, _total, sheet) => session.say(session.words.panel.sheet(sheet)),
        signal: { aborted: false },
      });
      await session.refresh();
      session.say(says(sheets.map(({ name }) => name).join(', ')), 'fine');
    });
  }

  protected money(amount: number, currency: string): string {
    const { session, f } = this;
    return buildWords(session.language).currency(f.amount(amount), currency);
  }
  protected water(amount: number, unit: string): string {
    return `${this.f.amount(amount)} ${this.w.unit(unit)}`;
  }

  /** "Row 4" as a way to its cell; where there is no sheet to go to, only the words. Row 0 is the whole table. */
  protected place(row: number, sheet: string | undefined, column = 0): TemplateResult {
    const { c, session } = this;
    const words = row === 0 ? c.wholeTable : c.row(row);
    if (sheet === undefined || row === 0) return html`<span class="place">${words}</span>`;
    const jump = (): void =>
      void session.attempt(() => session.host.showCell(row - 1, column, sheet));
    return button(words, jump, { small: true, name: c.goTo(sheet, row) });
  }

  /** Rows of a table that are not used, with the reason. */
  protected notUsed(
    problems: readonly { row: number; sentence: string }[],
    sheet: string | undefined,
    id: string,
  ) {
    if (problems.length === 0) return nothing;
    return html`
      <h3 class="trouble">${this.c.notUsed}</h3>
      <ul class="rows" id=${id}>
        ${problems.map(({ row, sentence }) => html`<li>${this.place(row, sheet)}<div>${said(this.session, sentence)}</div></li>`)}
      </ul>
    `;
  }

  /** A list that shows its first items until all of them are wanted. */
  protected list<T>(id: string, items: readonly T[], item: (one: T) => TemplateResult, first = 8, most = 300) {
    const whole = this.all.has(id);
    const shown = items.slice(0, whole ? most : first);
    const { c, f } = this;
    return html`
      <ul class="rows" id=${id}>
        ${shown.map((one) => html`<li>${item(one)}</li>`)}
      </ul>
      ${
        items.length > shown.length && !whole
          ? html`<div class="buttons">
              ${button(c.showAll(f, items.length), () => (this.all = new Set([...this.all, id])), { small: true, id: `all-${id}` })}
            </div>`
          : nothing
      }
      ${whole && items.length > most ? html`<p class="quiet gap">${c.most(f, most)}</p>` : nothing}
    `;
  }

  /** That a plan is wanted first, and the way there; nothing where there is one. */
  protected needsPlan() {
    const { c, session } = this;
    if (this.planned) return nothing;
    return html`<p class="gap" id="needs-plan">
        ${session.plan === undefined ? c.planFirst : c.trying}
      </p>
      <div class="buttons">${button(c.toBuild, () => session.go('build'), { id: 'to-build' })}</div>`;
  }

  protected troubleLine() {
    return this.trouble === '' ? nothing : planner(this.session, this.trouble, 'trouble gap');
  }
} // prettier-ignore
