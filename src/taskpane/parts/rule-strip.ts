/** Six weeks by means for a kind of tree: a row of squares each, and the hours day by day on demand. */
import { css, html, nothing, type TemplateResult } from 'lit';
import type { RuleStrip, StripKind, StripMeans } from '../../workbook/rules-strip.js';
import { define, SessionElement } from './element.js';
import { base, tables } from './styles.js';

const WEEK = 7;

/** `00:00-10:00, 19:00-24:00` as lines "0–10" and "19–24": a narrow column holds no more. */
export function shortHours(hours: string): string[] {
  const time = (text: string): string => text.replace(/^0(?=\d)/, '').replace(/:00$/, '');
  return hours.split(', ').map((window) => window.split('-').map(time).join('–'));
}

type Square = 'any' | 'open' | 'closed' | 'banned';

/** What a day is for a means: open all day, some hours, closed, or closed by a ban. */
export function squareOf(kind: StripKind, { means, hours }: StripMeans, day: number): Square {
  const shown = hours[day] ?? '';
  if (shown === 'any') return 'any';
  if (shown !== '') return 'open';
  const bans = (kind.bans[day] ?? '').split(', ');
  return bans.some((ban) => ban.startsWith(`${means} (`)) ? 'banned' : 'closed';
}

const SIGNS: Readonly<Record<Square, string>> = { any: '■', open: '◧', closed: '□', banned: '✕' };

export class RuleStripPart extends SessionElement {
  static override properties = { ...SessionElement.properties, strip: { attribute: false } };
  declare strip: RuleStrip;

  static override styles = [
    base,
    tables,
    css`
      .kind {
        border-top: 1px solid var(--rule);
      }
      .weeks th,
      .weeks td {
        padding: 2px 0;
        text-align: center;
        line-height: 1.2;
        border-bottom: 1px solid var(--rule);
      }
      .weeks th:first-child,
      .weeks td.stage {
        text-align: left;
      }
      .weeks th:first-child {
        width: 1px;
        padding-right: 6px;
        font-size: 0.75rem;
        white-space: nowrap;
      }
      .weeks thead th {
        font-size: 0.6875rem;
      }
      .any,
      .open {
        color: var(--water);
      }
      .closed,
      .banned {
        color: var(--loam);
      }
      .weeks .week th {
        font-weight: 600;
        font-size: 0.75rem;
        padding-top: 6px;
        color: var(--bark);
      }
      .hours {
        table-layout: fixed;
        font-size: 0.75rem;
      }
      .hours th:first-child {
        width: 26%;
      }
      .hours .open,
      .hours .any {
        font-weight: 650;
      }
      .hours .closed,
      .hours .banned {
        font-style: italic;
      }
      .hours tbody {
        border-bottom: 2px solid var(--loam);
      }
      .digest li {
        display: grid;
        grid-template-columns: 8.5em 1fr;
        gap: 8px;
        font-size: 0.8125rem;
      }
    `,
  ];

  protected override render() {
    const { w, f, strip } = this;
    const { kinds, more, from } = strip;
    const r = w.rules;
    const only = kinds.length + more.kinds === 1;
    return html`
      <h3>${r.strip(f.day(from))}</h3>
      <p class="quiet">${r.stripKey}</p>
      ${kinds.map((kind, k) => {
        const title = only ? r.allTrees(kind.example) : r.kindTrees(f, kind.trees, kind.example);
        return html`<details class="kind" ?open=${k === 0}>
          <summary>${title}</summary>
          ${this.kind(kind, title)}
        </details>`;
      })}
      ${
        more.kinds === 0
          ? nothing
          : html`<p class="quiet gap">${r.moreKinds(f, more.kinds, more.trees)}</p>`
      }
    `;
  }

  private kind(kind: StripKind, title: string) {
    const { w, f, strip } = this;
    const r = w.rules;
    const digest = ({ means, hours, remarks }: StripMeans) => {
      const open = hours.filter((h) => h !== '').length;
      return html`<li>
        <strong>${this.family(means)}</strong>
        <span
          >${r.openDays(f, open, hours.length)}${
            remarks.length === 0 ? nothing : html`; <span lang="en">${remarks.join('; ')}</span>`
          }</span
        >
      </li>`;
    };
    const weeks = Array.from({ length: Math.ceil(strip.days / WEEK) }, (_, i) => i * WEEK);
    return html`
      <ul class="digest">
        ${kind.means.map(digest)}
      </ul>
      <table class="weeks">
        <caption class="unseen">
          ${`${title}: ${r.grid}`}
        </caption>
        ${weeks.map((first) => this.week(kind, first))}
      </table>
      <details>
        <summary>${r.hours}</summary>
        ${this.hours(kind, title)}
      </details>
    `;
  }

  private family(means: string): string {
    const { families } = this.w;
    return means in families ? families[means as keyof typeof families] : means;
  }

  private daysOf(first: number): number[] {
    const count = Math.min(WEEK, this.strip.days - first);
    return Array.from({ length: count }, (_, i) => first + i);
  }

  private stageLine(day: number): string | undefined {
    const { strip, w } = this;
    const stage = strip.stages[day] ?? '';
    if (stage === (day === 0 ? '' : (strip.stages[day - 1] ?? ''))) return undefined;
    return stage === '' ? w.rules.noStage : w.rules.stage(stage);
  }

  /** A week as a block: its days on top, a row a means. */
  private week(kind: StripKind, first: number): TemplateResult {
    const { f, strip, w } = this;
    const days = this.daysOf(first);
    const stages = days.flatMap((day) => {
      const line = this.stageLine(day);
      return line === undefined ? [] : [`${f.day(strip.from + day)}: ${line}`];
    });
    return html`<tbody>
      <tr class="week">
        <th scope="col">${f.day(strip.from + first).replace(/^\S+ /, '')}</th>
        ${days.map(
          (day) =>
            html`<th scope="col">
              <span aria-hidden="true">${f.day(strip.from + day).slice(0, 2)}</span>
              <span class="unseen">${f.day(strip.from + day)}</span>
            </th>`,
        )}
      </tr>
      ${stages.map(
        (line) =>
          html`<tr>
            <td class="quiet stage" colspan=${days.length + 1}>${line}</td>
          </tr>`,
      )}
      ${kind.means.map(
        (means) =>
          html`<tr>
            <th scope="row">${this.family(means.means)}</th>
            ${days.map((day) => {
              const square = squareOf(kind, means, day);
              return html`<td class=${square}>
                <span aria-hidden="true">${SIGNS[square]}</span>
                <span class="unseen">${w.rules[square]}</span>
              </td>`;
            })}
          </tr>`,
      )}
    </tbody>`;
  }

  private hours(kind: StripKind, title: string) {
    const { w, f, strip } = this;
    const r = w.rules;
    const day = (at: number) => html`
      ${this.stageRow(at, kind.means.length)}
      <tr>
        <th scope="row">${f.day(strip.from + at)}</th>
        ${kind.means.map((means) => {
          const square = squareOf(kind, means, at);
          const shown =
            square === 'open'
              ? shortHours(means.hours[at] ?? '').map((line) => html`<div>${line}</div>`)
              : r[square];
          return html`<td class=${square}>${shown}</td>`;
        })}
      </tr>
    `;
    const weeks = Array.from({ length: Math.ceil(strip.days / WEEK) }, (_, i) => i * WEEK);
    return html`<table class="hours">
      <caption>
        ${`${title}: ${r.openHours}`}
      </caption>
      <thead>
        <tr>
          <th scope="col">${r.day}</th>
          ${kind.means.map(({ means }) => html`<th scope="col">${this.family(means)}</th>`)}
        </tr>
      </thead>
      ${weeks.map(
        (first) =>
          html`<tbody>
            ${this.daysOf(first).map(day)}
          </tbody>`,
      )}
    </table>`;
  }

  private stageRow(at: number, columns: number) {
    const line = this.stageLine(at);
    return line === undefined
      ? nothing
      : html`<tr>
          <th scope="rowgroup" colspan=${columns + 1}>${line}</th>
        </tr>`;
  }
}
define('sb-rule-strip', RuleStripPart);
