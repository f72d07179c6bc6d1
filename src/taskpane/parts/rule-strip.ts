/** Six weeks by means for a kind of tree: a row of squares each, and the hours day by day on demand. */
import { css, html, nothing, type TemplateResult } from 'lit';
import type { RuleStrip, StripKind, StripMeans } from '../../workbook/rules-strip.js';
import { alikeWeeks, squareOf, stageBegins, WEEK, type AlikeWeeks, type Square } from './alike-weeks.js'; // prettier-ignore
import { define, SessionElement } from './element.js';
import { said } from './pieces.js';
import { base, tables } from './styles.js';

/** `00:00-10:00, 19:00-24:00` as lines "0–10" and "19–24": a narrow column holds no more. */
export function shortHours(hours: string): string[] {
  const time = (text: string): string => text.replace(/^0(?=\d)/, '').replace(/:00$/, '');
  return hours.split(', ').map((window) => window.split('-').map(time).join('–'));
}

/** "Thu 1 Apr" as "1 Apr". */
const withoutWeekday = (day: string): string => day.replace(/^\S+ /, '');

/** The day and month of "Thu 1 Apr" stay on one line. */
const withDateWhole = (day: string): TemplateResult =>
  html`${day.slice(0, day.indexOf(' ') + 1)}<span class="date">${withoutWeekday(day)}</span>`;

const SIGNS: Readonly<Record<Square, string>> = { any: '■', open: '◧', closed: '□', banned: '✕' };

export class RuleStripPart extends SessionElement {
  static override properties = { ...SessionElement.properties, strip: { attribute: false } };
  declare strip: RuleStrip;

  static override styles = [
    base,
    tables,
    css`
      :host {
        container-type: inline-size;
      }
      .kind {
        border-top: 1px solid var(--rule);
      }
      .weeks {
        table-layout: fixed;
        margin-top: 8px;
      }
      .weeks th,
      .weeks td {
        padding: 2px 0;
        text-align: center;
        line-height: 1.2;
        border-bottom: 1px solid var(--rule);
      }
      .weeks th[scope='row'],
      .weeks .week th:first-child,
      .weeks td.stage {
        text-align: left;
      }
      .weeks th[scope='row'] {
        font-size: 0.75rem;
      }
      .weeks col:first-child {
        width: 8em;
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
      .weeks .run th {
        border-bottom: 0;
        padding-top: 8px;
      }
      .hours {
        table-layout: fixed;
        font-size: 0.75rem;
      }
      .hours th,
      .hours td {
        padding-right: 2px;
      }
      .hours th:first-child {
        width: 4em;
      }
      .hours thead th {
        font-size: 0.6875rem;
      }
      .date {
        display: inline-block;
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
        grid-template-columns: minmax(0, 8.5em) minmax(0, 1fr);
        gap: 8px;
        font-size: 0.8125rem;
      }
      /* little room for large text: names stand over their squares and hours */
      @container (max-width: 17em) {
        .digest li {
          grid-template-columns: minmax(0, 1fr);
          gap: 0;
          padding: 4px 0;
        }
        .weeks,
        .weeks tbody,
        .hours,
        .hours tbody {
          display: block;
        }
        .weeks caption,
        .hours caption {
          display: block;
        }
        .weeks .week th[scope='col'] {
          font-size: 0.6875rem;
          overflow-wrap: normal;
        }
        .weeks tr {
          display: grid;
          grid-template-columns: repeat(7, minmax(0, 1fr));
        }
        .weeks th[scope='row'],
        .weeks th[scope='rowgroup'],
        .weeks tr:not(.run) th[scope='col']:first-child,
        .weeks td.stage {
          grid-column: 1 / -1;
        }
        .weeks th[scope='row'] {
          border-bottom: 0;
        }
        .weeks .corner {
          display: none;
        }
        .hours thead {
          display: none;
        }
        .hours tr,
        .hours th,
        .hours th:first-child,
        .hours td {
          display: block;
          width: auto;
        }
        .hours th {
          font-weight: 600;
          padding-top: 8px;
        }
        .hours td {
          display: flex;
          justify-content: space-between;
          gap: 8px;
          text-align: right;
        }
        .hours td::before {
          content: attr(data-means);
          font: 400 0.75rem/1.45 var(--type);
          color: var(--loam);
          text-align: left;
        }
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
        const title = only
          ? r.allTrees(this.session.spoken(kind.example).text)
          : r.kindTrees(f, kind.trees, this.session.spoken(kind.example).text);
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
            remarks.length === 0 ? nothing : html`; ${said(this.session, remarks.join('; '))}`
          }</span
        >
      </li>`;
    };
    return html`
      <ul class="digest">
        ${kind.means.map(digest)}
      </ul>
      <table class="weeks">
        <caption class="unseen">
          ${`${title}: ${r.grid}`}
        </caption>
        <colgroup>
          <col />
          <col span=${WEEK} />
        </colgroup>
        ${alikeWeeks(strip, kind).map((run) => this.weeks(kind, run))}
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
    if (!stageBegins(strip, day)) return undefined;
    return stage === '' ? w.rules.noStage : w.rules.stage(stage);
  }

  /** Weeks that are alike as a block: their days on top, a row a means. */
  private weeks(kind: StripKind, run: AlikeWeeks): TemplateResult {
    const { f, strip, w } = this;
    const { days } = run;
    const stages = days.flatMap((day) => {
      const line = this.stageLine(day);
      return line === undefined ? [] : [`${f.day(strip.from + day)}: ${line}`];
    });
    return html`<tbody data-weeks=${run.weeks}>
      ${this.weekHead(run)}
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
              return html`<td class="square ${square}">
                <span aria-hidden="true">${SIGNS[square]}</span>
                <span class="unseen">${w.rules[square]}</span>
              </td>`;
            })}
          </tr>`,
      )}
    </tbody>`;
  }

  /** The days over their columns; over a run of weeks a line of its own with the dates from and to. */
  private weekHead({ days, weeks }: AlikeWeeks): TemplateResult {
    const { f, strip, w } = this;
    const on = (day: number): string => f.day(strip.from + day);
    const later = (weeks - 1) * WEEK;
    const columns = days.map((day) => {
      const said = weeks === 1 ? on(day) : w.rules.fromTo(on(day), on(day + later));
      return html`<th scope="col">
        <span aria-hidden="true">${on(day).slice(0, 2)}</span>
        <span class="unseen">${said}</span>
      </th>`;
    });
    const first = days[0] ?? 0;
    if (weeks === 1)
      return html`<tr class="week">
        <th scope="col">${withoutWeekday(on(first))}</th>
        ${columns}
      </tr>`;
    const dates = w.rules.fromTo(on(first), on((days.at(-1) ?? first) + later));
    return html`<tr class="week run">
        <th scope="rowgroup" colspan=${days.length + 1}>${w.rules.alike(f, weeks, dates)}</th>
      </tr>
      <tr class="week">
        <td class="corner"></td>
        ${columns}
      </tr>`;
  }

  private hours(kind: StripKind, title: string) {
    const { w, f, strip } = this;
    const r = w.rules;
    const day = (at: number) => html`
      ${this.stageRow(at, kind.means.length)}
      <tr>
        <th scope="row">${withDateWhole(f.day(strip.from + at))}</th>
        ${kind.means.map((means) => {
          const square = squareOf(kind, means, at);
          const shown =
            square === 'open'
              ? shortHours(means.hours[at] ?? '').map((line) => html`<div>${line}</div>`)
              : r[square];
          return html`<td class=${square} data-means=${this.family(means.means)}>
            <div>${shown}</div>
          </td>`;
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
