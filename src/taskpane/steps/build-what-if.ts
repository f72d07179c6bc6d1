/** The season with one thing changed at a time, worked out when somebody asks. */
import { upperFirst } from '../../engine/first-letter.js';
import { css, html, nothing, type PropertyValues } from 'lit';
import type { PlanSummary, WhatIfLine } from '../../workers/plan-room.js';
import { define, SessionElement } from '../parts/element.js';
import { button, planner, progressBar, said } from '../parts/pieces.js';
import { base } from '../parts/styles.js';
import { buildWords } from '../words/build.js';
import { differences } from './build-differences.js';

export class BuildWhatIf extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    plan: { attribute: false },
    lines: { state: true },
    working: { state: true },
  };
  declare plan: PlanSummary;
  declare private lines: WhatIfLine[] | undefined;
  declare private working: { done: number; total: number } | undefined;
  private stopper: AbortController | undefined;

  static override styles = [
    base,
    css`
      li {
        padding: 8px 0;
        border-bottom: 1px solid var(--rule);
      }
      strong {
        font-weight: 600;
      }
    `,
  ];

  constructor() {
    super();
    this.lines = undefined;
    this.working = undefined;
  }

  private get b() {
    return buildWords(this.session.language).whatIf;
  }

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    if (!changed.has('plan')) return;
    this.stopper?.abort();
    this.lines = undefined;
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.stopper?.abort();
  }

  private async work(): Promise<void> {
    const { session, b, f, plan } = this;
    if (this.working) return;
    const stopper = (this.stopper = new AbortController());
    this.working = { done: 0, total: 1 };
    await session.attempt(async () => {
      const lines = await session.room.whatIf({
        signal: stopper.signal,
        onProgress: (done, total) => {
          this.working = { done, total };
          session.say(b.working(f, done, total));
        },
      });
      if (plan !== this.plan) return;
      this.lines = lines;
      session.say(b.done, 'fine');
    });
    this.working = undefined;
  }

  protected override render() {
    const { b, working, lines } = this;
    return html`
      <p class="quiet">${b.lead}</p>
      <div class="buttons">
        ${button(lines ? b.again : b.ask, () => void this.work(), {
          id: 'ask-what-if',
          disabled: working !== undefined,
        })}
        ${working ? button(b.stop, () => this.stopper?.abort(), { id: 'stop-what-if' }) : nothing}
      </div>
      ${working ? html`${progressBar(b.title, working.done, working.total)}` : nothing}
      ${
        lines
          ? html`<ul id="what-if-lines" class="gap">
              ${lines.map((line, i) => html`<li>${this.line(line, i === 0)}</li>`)}
            </ul>`
          : nothing
      }
    `;
  }

  private line(line: WhatIfLine, isBase: boolean) {
    const { b, f, session, plan } = this;
    const money = buildWords(session.language).currency(f.amount(line.cost), plan.currency);
    const numbers = [
      b.line(f, line.stressDays, line.waterings),
      `${f.amount(line.water)} ${plan.waterUnit}`,
      b.cost(money),
      b.lost(f, line.cannotBeKept),
      b.over(f, line.crewDaysOver),
    ].filter((part) => part !== '');
    return html`
      <strong>${isBase ? b.base : said(this.session, upperFirst(line.question))}</strong>
      ${isBase ? nothing : html`<p>${differences(this.lines![0]!, line, plan, session)}</p>`}
      <p class="quiet">${numbers.join(' · ')}</p>
      ${isBase || line.note === '' ? nothing : planner(this.session, line.note, 'quiet')}
    `;
  }
}
define('sb-what-if', BuildWhatIf);
