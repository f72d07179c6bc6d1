/** Step 5: plan the season, look at it before anything is written, try other values, then write sheets and save files. */
import { css, html, nothing, type TemplateResult } from 'lit';
import type { PlanSummary } from '../../workers/plan-room.js';
import { leftOut, serveAll } from '../left-out.js';
import { define, SessionElement } from '../parts/element.js';
import { button, planner, progressBar, said } from '../parts/pieces.js';
import { base } from '../parts/styles.js';
import { trialOf } from '../trial.js';
import { buildWords } from '../words/build.js';
import { enoughWords } from '../words/enough.js';
import './build-files.js';
import './build-picture.js';
import './build-sheets.js';
import type { BuildSheets } from './build-sheets.js';
import './build-summary.js';
import type { Onward } from './build-summary.js';
import './build-tree.js';
import './build-trial.js';
import './build-what-if.js';
import './built-sets.js';
import type { BuiltSets } from './built-sets.js';

/** Parts that open when they are asked for; what stands in them is made then. */
type Part = 'trial' | 'means' | 'crew' | 'tree' | 'coils' | 'what-if' | 'files' | 'notes';

export class BuildStep extends SessionElement {
  static override properties = { ...SessionElement.properties, opened: { state: true } };
  declare private opened: ReadonlySet<Part>;

  static override styles = [
    base,
    css`
      details.part {
        border-top: 1px solid var(--rule);
        margin-top: 8px;
        padding-top: 4px;
      }
      summary h3 {
        display: inline;
        margin: 0;
      }
      .means {
        display: flex;
        justify-content: space-between;
        gap: 8px;
        padding: 4px 0;
        border-bottom: 1px solid var(--rule);
        font-size: 0.8125rem;
      }
      .sheets h3 {
        /* the line that is read aloud stays at the top while the panel scrolls */
        scroll-margin-top: 4rem;
      }
      .sheets {
        border-top: 1px solid var(--rule);
        margin-top: 8px;
      }
    `,
  ];

  constructor() {
    super();
    this.opened = new Set();
  }

  protected override render() {
    const { w, session } = this;
    const { planning, plan } = session;
    const b = buildWords(session.language);
    // while tried values are being kept, the season under them stays in view
    const shown = trialOf(session).plan ?? plan;
    return html`
      <h2 tabindex="-1">${w.places.build}</h2>
      <p class="quiet">${session.canPlan ? b.lead : b.empty}</p>
      <div class="buttons">
        ${button(w.build.plan, () => void session.makePlan(), {
          main: plan === undefined,
          id: 'plan',
          disabled: !session.canPlan || planning !== undefined,
        })}
        ${planning ? button(w.build.stop, () => session.stopPlanning(), { id: 'stop' }) : nothing}
      </div>
      ${session.canPlan ? nothing : html`<p class="quiet gap">${w.build.nothing}</p>`}
      ${
        session.outdated === '' || shown || planning
          ? nothing
          : html`<p class="trouble gap" id="outdated">${session.outdated}</p>
              ${this.planBefore()}`
      }
      ${planning ? nothing : this.leftOut()}
      ${planning ? html`${progressBar(w.build.planning, planning.done, planning.total)}` : nothing}
      ${shown ? this.season(shown) : nothing}
      <sb-built-sets .session=${session} @gone=${() => this.toBuilding()}></sb-built-sets>
      ${shown ? this.files(shown) : nothing}
    `;
  }

  /** Trees that the list itself leaves out. */
  private leftOut() {
    const { f, session } = this;
    const rows = leftOut(session)?.rows.length ?? 0;
    if (rows === 0) return nothing;
    const { leftOut: words } = enoughWords(session.language);
    return html`<p class="gap" id="left-out">${words.rows(f, rows)}</p>
      <div class="buttons">
        ${button(words.serveAll, () => void session.attempt(() => serveAll(session)), { small: true, id: 'serve-all' })}
      </div>`;
  } // prettier-ignore

  /** What the plan was that has just been withdrawn. */
  private planBefore() {
    const { f, session } = this;
    if (!session.before) return nothing;
    const { planned, daysOver, crewHours, price, currency } = session.before;
    const b = buildWords(session.language);
    const money = b.currency(f.amount(price), currency);
    return html`<p class="quiet gap" id="plan-before">
      ${b.before(f, planned, daysOver, crewHours, money)}
    </p>`;
  }

  private season(plan: PlanSummary) {
    const { session } = this;
    const b = buildWords(session.language);
    const { season, crew, coils } = plan;
    const notes = [...plan.problems, ...plan.remarks];
    return html`
      <sb-build-summary
        .session=${session}
        .plan=${plan}
        .earlier=${plan === session.plan ? session.before : undefined}
        @onward=${(e: CustomEvent<Onward>) => this.goTo(e.detail)}
      ></sb-build-summary>
      <sb-picture
        id="season"
        .session=${session}
        .shown=${{ kind: 'season', series: season }}
      ></sb-picture>
      ${this.section('trial', b.trial.title, () => html`<sb-trial .session=${session}></sb-trial>`)}
      ${this.section('means', b.means, () => this.means(plan))}
      ${this.section(
        'crew',
        b.pictures.crew,
        () =>
          html`<sb-picture
            id="crew"
            .session=${session}
            .shown=${{ kind: 'crew', series: crew }}
          ></sb-picture>`,
      )}
      ${this.section(
        'tree',
        b.pictures.tree,
        () => html`<sb-build-tree .session=${session} .plan=${plan}></sb-build-tree>`,
      )}
      ${
        coils.length === 0
          ? nothing
          : this.section(
              'coils',
              b.pictures.coils,
              () =>
                html`${coils.map(
                  (series) =>
                    html`<sb-picture
                      .session=${session}
                      .shown=${{ kind: 'coil', series }}
                    ></sb-picture>`,
                )}`,
            )
      }
      ${this.section(
        'what-if',
        b.whatIf.title,
        () => html`<sb-what-if .session=${session} .plan=${plan}></sb-what-if>`,
      )}
      ${
        notes.length === 0
          ? nothing
          : this.section(
              'notes',
              b.notesTitle,
              () => html`${notes.map((n) => planner(session, n, 'quiet gap'))}`,
            )
      }
      <div class="sheets">
        <h3 id="sheets-title" tabindex="-1">${b.sheets.title}</h3>
        <sb-build-sheets
          .session=${session}
          .plan=${plan}
          @wrote=${() => void this.builtSets()?.focusNewest()}
        ></sb-build-sheets>
      </div>
    `;
  }

  private files(plan: PlanSummary) {
    const { session } = this;
    return html`<div class="sheets">
      <h3 id="files-title" tabindex="-1">${buildWords(session.language).files.title}</h3>
      <sb-build-files .session=${session} .plan=${plan}></sb-build-files>
    </div>`;
  }

  private builtSets(): BuiltSets | null {
    return this.renderRoot.querySelector<BuiltSets>('sb-built-sets');
  }
  /** To where sheets are built, or planned first. */
  private toBuilding(): void {
    const sheets = this.renderRoot.querySelector<BuildSheets>('sb-build-sheets');
    if (sheets) sheets.focusBuild();
    else this.renderRoot.querySelector<HTMLElement>('#plan')?.focus();
  }

  /** Past the pictures, to a part's heading: seen at the top, and read aloud. */
  private goTo(part: Onward): void {
    const heading = this.renderRoot.querySelector<HTMLElement>(`#${part}-title`);
    heading?.scrollIntoView({ block: 'start' });
    heading?.focus({ preventScroll: true });
  }

  private means({ means, waterUnit }: PlanSummary) {
    const { f, session } = this;
    const { meansLine } = buildWords(session.language);
    return html`<ul id="means">
      ${means.map(
        (each) =>
          html`<li class="means">
            <span>${said(session, each.means)}</span
            ><span>${meansLine(f, each.trees, each.water, waterUnit)}</span>
          </li>`,
      )}
    </ul>`;
  }

  private section(name: Part, title: string, inside: () => TemplateResult) {
    const open = this.opened.has(name);
    const toggled = (e: Event): void => {
      const now = (e.currentTarget as HTMLDetailsElement).open;
      if (now === open) return;
      const opened = new Set(this.opened);
      if (now) opened.add(name);
      else opened.delete(name);
      this.opened = opened;
    };
    return html`<details class="part" data-part=${name} ?open=${open} @toggle=${toggled}>
      <summary><h3>${title}</h3></summary>
      ${open ? inside() : nothing}
    </details>`;
  }
}
define('sb-build', BuildStep);
