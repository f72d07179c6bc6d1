/** The plan as files: for the office, the crew, the client, a calendar, other programs. */
import { css, html, nothing } from 'lit';
import type { ExportKind, ExportWish, PlanSummary } from '../../workers/plan-room.js';
import { CREW_LANGUAGES, type CrewLanguage } from '../../workbook/crew-words.js';
import type { Session } from '../session.js';
import { builtOf } from '../built.js';
import { draftText } from '../draft.js';
import { define, SessionElement } from '../parts/element.js';
import { button, chosenIn, options } from '../parts/pieces.js';
import { base, fields } from '../parts/styles.js';
import { typedIn } from '../parts/typed-in.js';
import { trialOf } from '../trial.js';
import { triedFirst } from './tried-first.js';
import { buildWords } from '../words/build.js';
import { LANGUAGE_NAMES } from '../words/index.js';

interface SavedFile {
  name: string;
  bytes: Uint8Array;
}

const KINDS: readonly ExportKind[] = [
  'workbook',
  'crew.pdf',
  'crew.xlsx',
  'client.pdf',
  'client.xlsx',
  'plan.ics',
  'plan.csv',
];
/** Days asked for, which outlive the next planning. */
const daysAsked = new WeakMap<Session, { from?: string; to?: string }>();

const isOfCrew = (kind: ExportKind): boolean => kind.startsWith('crew.');

export class BuildFiles extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    plan: { attribute: false },
    crewLanguage: { state: true },
    bom: { state: true },
    busy: { state: true },
  };
  declare plan: PlanSummary;
  declare private crewLanguage: CrewLanguage | undefined;
  declare private bom: boolean;
  declare private busy: boolean;

  static override styles = [
    base,
    fields,
    css`
      li {
        display: flex;
        gap: 8px;
        justify-content: space-between;
        align-items: start;
        padding: 6px 0;
        border-bottom: 1px solid var(--rule);
      }
      button.act {
        flex: none;
      }
      .days {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 10em), 1fr));
        gap: 8px;
      }
    `,
  ];

  constructor() {
    super();
    this.crewLanguage = undefined;
    this.bom = true;
    this.busy = false;
  }

  private get b() {
    return buildWords(this.session.language).files;
  }
  private get spoken(): CrewLanguage {
    return this.crewLanguage ?? this.session.draft.crewLanguage;
  }

  private wish(kind: ExportKind): ExportWish {
    const { session } = this;
    if (kind === 'workbook')
      return {
        kind,
        settings: { draft: draftText(session.draft), language: session.language },
      };
    if (kind === 'plan.csv') return { kind, bom: this.bom };
    if (!isOfCrew(kind)) return { kind };
    return { kind, language: this.spoken, ...(kind === 'crew.pdf' && { days: this.days }) };
  }

  /** What is wrong with the days asked for, "" when they are days of the plan in order. */
  private get wrongDays(): string {
    const { b, f, plan } = this;
    const [from, to] = this.days;
    const inPlan = (day: string): boolean => day >= plan.from && day <= plan.to;
    if (!inPlan(from) || !inPlan(to)) return b.outside(f.day(plan.from), f.day(plan.to));
    return to < from ? b.backwards : '';
  }
  private ask(id: 'from' | 'to', day: string): void {
    daysAsked.set(this.session, { ...daysAsked.get(this.session), [id]: day });
    this.requestUpdate();
  }
  private get days(): [string, string] {
    const { from = '', to = '' } = daysAsked.get(this.session) ?? {};
    return [from || this.plan.from, to || this.plan.to];
  }

  /** The plan as a file. What was typed a moment ago counts; if the plan rests on it, the plan is withdrawn and that is said. */
  private async planFile(kind: ExportKind): Promise<SavedFile | undefined> {
    const { session } = this;
    await session.refresh();
    return session.plan && session.room.file(this.wish(kind), session.livingPapers);
  }

  /** @param make - gives nothing where something else was said */
  private async save(label: string, make: () => Promise<SavedFile | undefined>) {
    const { session, b } = this;
    if (this.busy) return;
    this.busy = true;
    session.say(b.writing(label));
    await session.attempt(async () => {
      const file = await make();
      if (!file) return;
      await session.host.saveFile(file.name, file.bytes);
      session.say(b.saved(file.name), 'fine');
    });
    this.busy = false;
  }

  protected override render() {
    const { b, session, busy } = this;
    const { host } = session;
    const tried = trialOf(session).active;
    const whole = host.wholeWorkbook;
    return html`
      ${tried ? html`<p class="quiet">${triedFirst(session)}</p>` : nothing} ${this.choices()}
      <ul id="files" class="gap">
        ${KINDS.map((kind) => {
          const name = b.names[kind];
          const save = () => void this.save(name, () => this.planFile(kind));
          return this.item(kind, name, b.notes[kind], save, busy || tried);
        })}
        ${
          whole === undefined
            ? nothing
            : this.item(
                'whole',
                b.whole,
                b.wholeNote,
                () =>
                  void this.save(b.whole, async () => {
                    // the file keeps what was built, under the names sheets have by now
                    await builtOf(session).load();
                    return { name: b.wholeName, bytes: await whole() };
                  }),
                busy,
              )
        }
      </ul>
      <label class="check"
        ><input
          type="checkbox"
          id="bom"
          .checked=${this.bom}
          @change=${(e: Event) => (this.bom = (e.target as HTMLInputElement).checked)}
        /><span>${b.bom}</span></label
      >
    `;
  }

  private item(kind: string, name: string, note: string, save: () => void, disabled: boolean) {
    const { b } = this;
    return html`<li>
      <div>
        ${name}
        <div class="quiet">${note}</div>
      </div>
      ${button(b.save, save, {
        small: true,
        name: b.saveOf(name),
        disabled,
        id: kind === 'workbook' ? 'download' : `save-${kind.replace('.', '-')}`,
      })}
    </li>`;
  }

  private choices() {
    const { b, plan, wrongDays: wrong } = this;
    const date = (id: 'from' | 'to', label: string, value: string) =>
      html`<div>
        <label for=${id}>${label}</label>
        <input
          type="date"
          id=${id}
          class="preset"
          min=${plan.from}
          max=${plan.to}
          aria-invalid=${wrong === '' ? nothing : 'true'}
          aria-describedby=${wrong === '' ? nothing : 'wrong-days'}
          ${typedIn(value, (field) => this.ask(id, field.value))}
        />
      </div>`;
    return html`
      <p class="gap">
        <label for="crew-language">${b.language}</label>
        <select
          id="crew-language"
          class="preset"
          @change=${(e: Event) => (this.crewLanguage = chosenIn(e) as CrewLanguage)}
        >
          ${options(
            CREW_LANGUAGES.map((language) =>
              language === 'both'
                ? { value: language, label: b.both }
                : { value: language, label: LANGUAGE_NAMES[language], lang: language },
            ),
            this.spoken,
          )}
        </select>
      </p>
      <fieldset>
        <legend>${b.days}</legend>
        <div class="days">
          ${date('from', b.from, this.days[0])} ${date('to', b.to, this.days[1])}
        </div>
        ${wrong === '' ? nothing : html`<p id="wrong-days" class="trouble" role="alert">${wrong}</p>`}
      </fieldset>
    `;
  }
}
define('sb-build-files', BuildFiles);
