/** A filled log: the sheet Log of the open workbook, or a file; water and visits against the plan, and its questions. */
import { html, nothing } from 'lit';
import { Problem } from '../../engine/problems.js';
import { plainLabel, type Cell } from '../../tables/cells.js';
import type { LogQuestion, LogReport } from '../../workers/contract-types.js';
import { define } from '../parts/element.js';
import { bigNumber, button, said } from '../parts/pieces.js';
import { base, fields, numbers, tables } from '../parts/styles.js';
import { ContractPart } from './contract-part.js';
import './contract-log-more.js';

/** A log from a file, with the sheets beside it. */
interface OpenedLog {
  name: string;
  cells: Cell[][];
  meters: Cell[][] | undefined;
  contract: Cell[][] | undefined;
}

type Group = [LogQuestion, ...LogQuestion[]];

/** Rows that are asked the same: a question about a day is asked of each of its rows. */
function alike(questions: readonly LogQuestion[]): Group[] {
  const groups = new Map<string, Group>();
  for (const question of questions) {
    const key = `${question.kind}|${question.day}|${question.sentence}`;
    const group = groups.get(key);
    if (group) group.push(question);
    else groups.set(key, [question]);
  }
  return [...groups.values()];
}

export class ContractLog extends ContractPart {
  static override properties = {
    ...ContractPart.properties,
    file: { state: true },
    report: { state: true },
  };
  declare private file: OpenedLog | undefined;
  declare private report: LogReport | undefined;

  static override styles = [base, fields, numbers, tables, ContractPart.partStyles];

  constructor() {
    super();
    this.file = undefined;
    this.report = undefined;
  }

  protected override wishes(): readonly unknown[] {
    return [this.file];
  }

  protected override async look(): Promise<() => void> {
    const { session, file, planned } = this;
    const cells = file ? file.cells : await this.cellsOf('log');
    const contract = file?.contract ?? (await this.cellsOf('contract'));
    const meters = file ? file.meters : await this.cellsOf('meters');
    const report =
      cells &&
      (await session.room.log({
        cells,
        ...(meters && { meters }),
        ...(contract && { contract }),
        trees: session.trees,
        draft: session.draft,
        planned,
      }));
    return () => (this.report = report);
  }

  private async open(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const chosen = input.files?.[0];
    if (!chosen) return;
    const { session, c, f } = this;
    const { name } = chosen;
    session.say(c.log.reading(name));
    await session.attempt(async () => {
      const { sheets } = await session.room.open(name, new Uint8Array(await chosen.arrayBuffer()));
      const named = (wanted: string): Cell[][] | undefined =>
        sheets.find((sheet) => plainLabel(sheet.name) === wanted)?.cells;
      const cells = named('log') ?? (sheets.length === 1 ? sheets[0]!.cells : undefined);
      if (!cells)
        throw new Problem(c.log.noLog(name, sheets.map((sheet) => `“${sheet.name}”`).join(', ')));
      this.file = { name, cells, meters: named('meters'), contract: named('contract') };
      await this.answered();
      session.say(
        c.log.read(f, name, this.report?.rows ?? 0),
        this.trouble === '' ? 'fine' : 'trouble',
      );
    });
    input.value = '';
  }

  protected override render() {
    const { c, file, report } = this;
    const sheet = this.sheetNamed('log');
    return html`
      ${file === undefined && sheet === undefined ? html`<p id="log-empty">${c.log.empty}</p>` : nothing}
      ${file ? html`<p id="log-from">${c.log.fromFile(file.name)}</p>` : nothing}
      ${!file && sheet !== undefined ? html`<p id="log-from">${c.log.fromSheet(sheet)}</p>` : nothing}
      <p class="gap">
        <label for="open-log">${file || sheet !== undefined ? c.log.another : c.log.open}</label>
        <input
          type="file"
          id="open-log"
          accept=".csv,.tsv,.txt,.xlsx"
          @change=${(e: Event) => void this.open(e)}
        />
      </p>
      ${
        file && sheet !== undefined
          ? html`<div class="buttons">
              ${button(c.log.back(sheet), () => (this.file = undefined), { small: true, id: 'back-to-sheet' })}
            </div>`
          : nothing
      }
      ${this.troubleLine()} ${report ? this.read(report, file ? undefined : sheet) : nothing}
    `;
  }

  private read(report: LogReport, sheet: string | undefined) {
    const { c, f, session } = this;
    const meters = this.file ? undefined : this.sheetNamed('meters');
    const { rows, from, to, problems } = report;
    if (rows === 0)
      return html`<p class="trouble gap" id="log-none">${c.log.none}</p>
        ${this.notUsed(problems, sheet, 'log-problems')}`;
    return html`
      <p class="gap" id="log-span">${c.log.span(f, rows, f.day(from), f.day(to))}</p>
      ${this.sums(report)} ${this.notUsed(problems, sheet, 'log-problems')}
      ${this.questions(report, sheet)}
      <sb-contract-log-more
        .session=${session}
        .report=${report}
        .meterSheet=${meters}
      ></sb-contract-log-more>
      <details class="gap">
        <summary>${c.whereFrom}</summary>
        <p class="quiet">${c.log.source}</p>
      </details>
    `;
  }

  private sums({ made, missed, skipped, applied, planned, waterUnit }: LogReport) {
    const { c, f, w, session } = this;
    const unit = w.unit(waterUnit);
    const said =
      missed !== undefined
        ? c.log.against
        : planned !== undefined
          ? c.log.againstOwn
          : c.log.againstNone;
    const trying = session.plan !== undefined && !this.planned;
    return html`
      <dl class="numbers" id="log-sums">
        ${bigNumber(c.log.made, f.whole(made))}
        ${missed === undefined ? nothing : bigNumber(c.log.missed, f.whole(missed), { kind: missed > 0 ? 'trouble' : 'fine' })}
        ${bigNumber(c.log.skipped, f.whole(skipped))}
        ${bigNumber(c.log.applied, f.amount(applied), { unit })}
        ${planned === undefined ? nothing : bigNumber(c.log.planned, f.amount(planned), { unit })}
      </dl>
      <p class="quiet gap" id="log-against">${trying ? c.trying : said}</p>
    `;
  }

  private questions({ questions, asked }: LogReport, sheet: string | undefined) {
    const { c, f } = this;
    return html`
      <h3>${c.log.questions}</h3>
      <p class="quiet">${c.log.motto}</p>
      ${
        questions.length === 0
          ? html`<p class="fine" id="no-questions">${c.log.noQuestion}</p>`
          : html`<p id="question-count">${c.log.count(f, questions.length, asked)}</p>
              ${this.list('questions', alike(questions), (group) => this.question(group, sheet))}`
      }
    `;
  }

  private question([first, ...more]: Group, sheet: string | undefined) {
    const { c, f } = this;
    const { row, column, id, day, kind, sentence } = first;
    return html`${this.place(row, sheet, column)}
      <div>
        <strong>${c.log.kinds[kind]}</strong>. ${id}, ${f.day(day)}: ${said(this.session, sentence)}
        ${
          more.length === 0
            ? nothing
            : html`<details>
                <summary>${c.log.alike(f, more.length)}</summary>
                <div class="buttons">
                  ${more.map((each) => this.place(each.row, sheet, each.column))}
                </div>
              </details>`
        }
      </div>`;
  }
}
define('sb-contract-log', ContractLog);
