/** When there is too little: how much there is, who comes first, who is not served and why. */
import { css, html, nothing } from 'lit';
import {
  TRIAGE_ORDER_NAMES,
  TRIAGE_ORDERS,
  type TriageOrder,
} from '../../engine/contract/triage-orders.js';
import { enoughOf } from '../enough.js';
import { enoughWords } from '../words/enough.js';
import type { LimitKind, ShortageReport, ShortageWish } from '../../workers/contract-types.js';
import { define } from '../parts/element.js';
import { typedValue, type Formats } from '../parts/format.js';
import { bigNumber, button, chosenIn, options, said } from '../parts/pieces.js';
import { base, fields, numbers } from '../parts/styles.js';
import { today } from '../session.js';
import { ContractPart } from './contract-part.js';
import { notServedModel } from './contract-sheets.js';

const LIMITS: readonly LimitKind[] = ['week', 'season', 'hours'];
/** Orders that look at a column a person has to name. */
const BY_VALUE: ReadonlySet<TriageOrder> = new Set(['value', 'large first']);
const BY_CONDITION: ReadonlySet<TriageOrder> = new Set(['sound first', 'score']);

/** Two decimals tell a tree that lives from one that does not; less than the last of them is said so. */
const asSentence = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
const ksWords = (ks: number, f: Formats): string =>
  ks < 0.01 ? `< ${f.plain(0.01)}` : f.plain(Number(ks.toFixed(2)));

/** What a person says. */
interface Form {
  limit: LimitKind;
  typed: string;
  order: TriageOrder;
  /** 0-based columns as text, "" for none */
  columns: { value: string; condition: string };
}

export class ContractShortage extends ContractPart {
  static override properties = {
    ...ContractPart.properties,
    limit: { state: true },
    typed: { state: true },
    order: { state: true },
    columns: { state: true },
    report: { state: true },
    working: { state: true },
  };
  declare private limit: LimitKind;
  declare private typed: string;
  declare private order: TriageOrder;
  declare private columns: Form['columns'];
  declare private report: ShortageReport | undefined;
  declare private working: boolean;
  /** the person has said something: nothing is filled in any more */
  private touched = false;
  /** hours that were filled in, as text; "" for none */
  private filled = '';
  private reportOf: unknown;
  private units: unknown;

  static override styles = [
    base,
    fields,
    numbers,
    ContractPart.partStyles,
    css`
      .amount {
        display: flex;
        gap: 6px;
        align-items: center;
      }
      .amount input {
        max-width: 9.5em;
      }
    `,
  ];

  constructor() {
    super();
    this.limit = 'week';
    this.typed = '';
    this.order = 'new first';
    this.columns = { value: '', condition: '' };
    this.report = undefined;
    this.working = false;
  }

  /** An answer falls with its plan; an amount typed in other units falls with them. */
  protected override async look(): Promise<() => void> {
    const { plan, draft } = this.session;
    return () => {
      if (this.reportOf !== plan || !this.planned) this.report = undefined;
      if (this.units !== undefined && this.units !== draft.units) this.typed = '';
      this.units = draft.units;
      this.fill();
    };
  }

  /** Where the days of the plan ask for more hours than there are, hours are what is short: those that fit are filled in. */
  private fill(): void {
    const { session } = this;
    if (this.touched || !session.plan?.over) return;
    const hours = enoughOf(session).weekHours;
    this.limit = 'hours';
    this.typed = hours === undefined ? '' : this.f.plain(Math.floor(hours * 10) / 10);
    this.filled = this.typed;
  }

  private change(part: Partial<Form>): void {
    this.touched = true;
    Object.assign(this, part);
    this.report = undefined;
    this.trouble = '';
  }

  private wish(): ShortageWish | undefined {
    const amount = typedValue(this.typed);
    if (typeof amount !== 'number' || !(amount > 0)) return undefined;
    const { limit, order, columns } = this;
    const value = BY_VALUE.has(order) && columns.value !== '' ? Number(columns.value) : undefined;
    const condition =
      BY_CONDITION.has(order) && columns.condition !== '' ? Number(columns.condition) : undefined;
    return {
      limit,
      amount,
      order,
      ...(value !== undefined && { value }),
      ...(condition !== undefined && { condition }),
    };
  }

  private async choose(): Promise<void> {
    const { session, c, f } = this;
    const wish = this.wish();
    if (!wish || this.working) return;
    this.working = true;
    this.trouble = '';
    session.say(c.shortage.working);
    const { plan } = session;
    try {
      const report = await session.room.shortage(wish);
      // what was asked of a plan that is gone, or with other words, is no answer
      if (plan !== session.plan || JSON.stringify(wish) !== JSON.stringify(this.wish())) return;
      this.reportOf = plan;
      this.report = report;
      session.say(c.shortage.done(f, report.served, report.notServed), 'fine');
    } catch (error) {
      this.trouble = session.sentenceOf(error);
      session.sayError(error);
    } finally {
      this.working = false;
    }
  }

  private async put(report: ShortageReport): Promise<void> {
    const { session, c } = this;
    const water = session.plan?.waterUnit ?? '';
    await this.write(notServedModel(report, water, today()), c.shortage.written);
  }

  protected override render() {
    const { c } = this;
    if (!this.planned)
      return html`<p>${c.shortage.lead}</p>
        ${this.needsPlan()}`;
    return html`<p>${c.shortage.lead}</p>
      ${this.form()}${this.troubleLine()}${this.report ? this.answer(this.report) : nothing}`;
  }

  private get unit(): string {
    const { session, limit, c, w } = this;
    return limit === 'hours' ? c.shortage.hours : w.unit(session.plan?.waterUnit ?? '');
  }

  private form() {
    const { c, limit, typed, order } = this;
    const amount = typedValue(typed);
    const wrong = amount !== null && !(typeof amount === 'number' && amount > 0);
    const { says, source, certainty } = TRIAGE_ORDERS[order];
    return html`
      <p class="gap">
        <label for="limit">${c.shortage.limit}</label>
        <select
          id="limit"
          @change=${(e: Event) => this.change({ limit: chosenIn(e) as LimitKind })}
        >
          ${options(
            LIMITS.map((value) => ({ value, label: c.shortage.limits[value] })),
            limit,
          )}
        </select>
      </p>
      <p class="gap"><label for="amount">${c.shortage.amount}</label></p>
      <div class="amount">
        <input
          id="amount"
          inputmode="decimal"
          autocomplete="off"
          .value=${typed}
          aria-invalid=${wrong ? 'true' : nothing}
          aria-describedby=${wrong ? 'amount-wrong' : nothing}
          @input=${(e: Event) => this.change({ typed: (e.target as HTMLInputElement).value })}
          @keydown=${(e: KeyboardEvent) => e.key === 'Enter' && void this.choose()}
        /><span class="quiet">${this.unit}</span>
      </div>
      ${this.hoursShort()}
      ${wrong ? html`<p id="amount-wrong" class="trouble">${c.shortage.notNumber(typed.trim())}</p>` : nothing}
      <p class="gap">
        <label for="order">${c.shortage.order}</label>
        <select
          id="order"
          @change=${(e: Event) => this.change({ order: chosenIn(e) as TriageOrder })}
        >
          ${options(
            TRIAGE_ORDER_NAMES.map((value) => ({ value, label: c.shortage.orders[value] })),
            order,
          )}
        </select>
      </p>
      <p class="quiet" id="order-says">
        ${said(this.session, asSentence(says))} ${c.shortage.source}: ${said(this.session, source)}
        (${c.shortage.certainty[certainty]}).
      </p>
      ${this.column('value', BY_VALUE, c.shortage.value, order === 'value' ? c.shortage.pickValue : c.shortage.noValue)}
      ${this.column('condition', BY_CONDITION, c.shortage.condition, c.shortage.noCondition)}
      <div class="buttons">
        ${button(c.shortage.ask, () => void this.choose(), { main: true, id: 'ask-shortage', disabled: this.working || this.wish() === undefined })}
      </div>
      <p class="quiet gap">${c.shortage.conflict}</p>
    `;
  }

  /** That hours are what is short, where the plan says so: what was filled in, or the way to what helps first. */
  private hoursShort() {
    const { session, limit, typed, filled, unit } = this;
    if (!session.plan?.over) return nothing;
    const { shortage: e } = enoughWords(session.language);
    if (limit === 'hours' && filled !== '' && typed === filled)
      return html`<p class="quiet gap" id="filled">${e.filled(`${typed} ${unit}`)} ${e.single}</p>`;
    if (filled !== '') return nothing;
    return html`<p class="gap" id="hours-short">${e.unknown}</p>
      <div class="buttons">
        ${button(this.c.toBuild, () => session.go('build'), { small: true, id: 'to-enough' })}
      </div>`;
  }

  private column(
    key: 'value' | 'condition',
    orders: ReadonlySet<TriageOrder>,
    label: string,
    none: string,
  ) {
    const { columns, session, order } = this;
    if (!orders.has(order)) return nothing;
    const { columns: matched = [], unmatched = [] } = session.reading ?? {};
    const all = [...matched, ...unmatched].sort((a, b) => a.column - b.column);
    return html`<p class="gap">
      <label for=${key}>${label}</label>
      <select
        id=${key}
        @change=${(e: Event) => this.change({ columns: { ...columns, [key]: chosenIn(e) } })}
      >
        ${options([{ value: '', label: none }, ...all.map(({ column, header }) => ({ value: String(column), label: header }))], columns[key])}
      </select>
    </p>`;
  }

  private answer(report: ShortageReport) {
    const { c, f, session, unit } = this;
    const { wish, served, notServed, stressDays, needed, exact, next, out } = report;
    const amount = (value: number): string => `${f.amount(value)} ${unit}`;
    const weekly = wish.limit !== 'season';
    const needs = weekly ? c.shortage.perWeek(amount(needed)) : amount(needed);
    if (notServed === 0)
      return html`<p class="fine gap" id="enough">${c.shortage.enough(needs)}</p>`;
    const there = weekly ? c.shortage.perWeekThere(amount(wish.amount)) : amount(wish.amount);
    const more = next && `${f.whole(next.more)} ${unit}`;
    return html`
      <p class="gap" id="needs">${c.shortage.needs(needs, there)}</p>
      <dl class="numbers" id="served">
        ${bigNumber(c.shortage.served, f.whole(served))}
        ${bigNumber(c.shortage.notServed, f.whole(notServed), { kind: 'trouble' })}
        ${bigNumber(c.shortage.stress, f.whole(stressDays))}
      </dl>
      ${next ? html`<p class="gap" id="next-saving">${c.shortage.next(f, weekly ? c.shortage.perWeekThere(more!) : more!, next.trees, next.stressDays)}</p>` : nothing}
      ${exact ? nothing : html`<p class="quiet gap" id="cut">${c.shortage.cut}</p>`}
      <h3>${c.shortage.out}</h3>
      ${this.list('out', out, ({ row, id, species, trees, stressDays: days, leastKs, why }) => {
        const name = [id, species].filter((part) => part !== '').join(', ');
        return html`${this.place(row, session.sheet)}
          <div>
            <strong>${name}</strong>: ${c.shortage.outLine(f, trees, days, ksWords(leastKs, f))}.
            <span class="quiet">${said(session, asSentence(why))}</span>
          </div>`;
      })}
      <div class="buttons">
        ${button(c.shortage.toSheet, () => void this.put(report), { id: 'list-to-sheet' })}
      </div>
      <p class="quiet gap">${c.shortage.toSheetNote}</p>
      <details class="gap">
        <summary>${c.whereFrom}</summary>
        <p class="quiet">${c.shortage.whereFrom}</p>
      </details>
    `;
  }
}
define('sb-contract-shortage', ContractShortage);
