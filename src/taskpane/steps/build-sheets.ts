/** Writes the plan's sheets into the open workbook, with progress by sheet; can be stopped, and taken back. */
import { css, html, nothing } from 'lit';
import type { PlanSummary } from '../../workers/plan-room.js';
import { builtOf } from '../built.js';
import type { Receipt } from '../host.js';
import { define, SessionElement } from '../parts/element.js';
import { button, planner, progressBar } from '../parts/pieces.js';
import { base, fields } from '../parts/styles.js';
import { trialOf } from '../trial.js';
import { buildWords } from '../words/build.js';

/** Rows above which our own functions make a workbook slow; assumption. */
export const LIVE_ROWS = 1000;

interface Writing {
  done: number;
  total: number;
  says: string;
}

export class BuildSheets extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    plan: { attribute: false },
    writing: { state: true },
    wanted: { state: true },
    notes: { state: true },
  };
  declare plan: PlanSummary;
  declare private writing: Writing | undefined;
  /** as the person has switched it; undefined: as suggested */
  declare private wanted: boolean | undefined;
  declare private notes: readonly string[];
  private stopper: AbortController | undefined;

  static override styles = [
    base,
    fields,
    css`
      h4 {
        margin: 12px 0 4px;
        font-size: 0.875rem;
        font-weight: 650;
      }
      .built {
        padding: 8px;
        margin-top: 8px;
        background: var(--sand);
        border-radius: 6px;
      }
    `,
  ];

  constructor() {
    super();
    this.writing = undefined;
    this.wanted = undefined;
    this.notes = [];
  }

  private get b() {
    return buildWords(this.session.language).sheets;
  }
  private get live(): boolean {
    return this.wanted ?? this.plan.picks.length <= LIVE_ROWS;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    void this.lookAgain();
  }
  private async lookAgain(): Promise<void> {
    await this.session.attempt(async () => {
      await builtOf(this.session).load();
      this.requestUpdate();
    });
  }

  private async build(): Promise<void> {
    const { session, b, f } = this;
    if (this.writing) return;
    const stopper = (this.stopper = new AbortController());
    const progress = (done: number, total: number, says: string): void => {
      this.writing = { done, total, says };
      session.say(says);
    };
    this.notes = [];
    progress(0, 1, b.preparing);
    try {
      // what was typed a moment ago counts; if the plan rests on it, the plan is withdrawn and that is said
      await session.refresh();
      if (!session.plan) return;
      const model = await session.room.model(session.livingPapers);
      if (stopper.signal.aborted) return session.say(b.cancelled);
      await session.whileWriting(async () => {
        const receipt = await session.host.writeModel(model, {
          live: this.live,
          signal: stopper.signal,
          onProgress: (done, total, sheet) => {
            const line = b.writing(f, Math.min(done + 1, total), total, sheet);
            progress(done, total, done + 1 < total ? line : b.last(line));
          },
        });
        await builtOf(session).add(receipt);
        this.notes = receipt.notes ?? [];
        session.say(b.done(f, receipt.sheets.length, receipt.sheets[0]?.name ?? ''), 'fine');
      });
    } catch (error) {
      if (stopper.signal.aborted) session.say(b.cancelled);
      else session.sayError(error);
    } finally {
      this.writing = undefined;
      await this.lookAgain();
      await this.updateComplete;
      const next = this.renderRoot.querySelector<HTMLElement>('#undo-build, #build-sheets');
      next?.focus();
    }
  }

  private async undo(): Promise<void> {
    const { session, b, f } = this;
    session.say(b.undoing);
    await session.attempt(() =>
      session.whileWriting(async () => {
        const gone = await builtOf(session).undo();
        this.notes = [];
        if (gone) session.say(b.undone(f, gone.sheets.length), 'fine');
      }),
    );
    this.requestUpdate();
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('#build-sheets')?.focus();
  }

  protected override render() {
    const { b, session, writing, notes } = this;
    const tried = trialOf(session).active;
    const last = builtOf(session).receipts.at(-1);
    return html`
      <p class="quiet">${b.lead}</p>
      ${this.choice()} ${this.logChoice()}
      <div class="buttons">
        ${button(b.build, () => void this.build(), {
          main: true,
          id: 'build-sheets',
          disabled: writing !== undefined || tried,
        })}
        ${writing ? button(b.cancel, () => this.stopper?.abort(), { id: 'cancel-build' }) : nothing}
      </div>
      ${tried ? html`<p class="quiet gap">${buildWords(session.language).trial.first}</p>` : nothing}
      ${
        writing
          ? html`${progressBar(b.title, writing.done, writing.total, 'build-progress')}
              <p class="quiet">${writing.says}</p>`
          : nothing
      }
      ${last && !writing ? this.built(last) : nothing}
      ${
        notes.length === 0
          ? nothing
          : html`<h4>${b.notes}</h4>
              <div id="build-notes">
                ${notes.map((note) => planner(this.session, note, 'quiet gap'))}
              </div>`
      }
    `;
  }

  private choice() {
    const { b, f, plan, live, writing } = this;
    const radio = (value: boolean, id: string, label: string, note: string) =>
      html`<label class="check"
        ><input
          type="radio"
          name="formulas"
          id=${id}
          .checked=${live === value}
          ?disabled=${writing !== undefined}
          @change=${() => (this.wanted = value)}
        /><span>${label}. <span class="quiet">${note}</span></span></label
      >`;
    return html`<fieldset>
      <legend>${b.how}</legend>
      ${radio(true, 'live', b.live, b.liveNote)} ${radio(false, 'native', b.native, b.nativeNote)}
      <p class="quiet gap">${b.suggested(f, plan.picks.length, LIVE_ROWS)}</p>
    </fieldset>`;
  }

  private logChoice() {
    const { b, session, writing } = this;
    const { visits, contract } = session.read.papers;
    if (visits || contract) return html`<p class="quiet gap" id="log-goes-too">${b.logThere}</p>`;
    return html`<label class="check gap"
      ><input
        type="checkbox"
        id="with-log"
        .checked=${session.wantsLog}
        ?disabled=${writing !== undefined}
        @change=${(event: Event) => void session.setWantsLog((event.target as HTMLInputElement).checked)}
      /><span>${b.log}. <span class="quiet">${b.logNote}</span></span></label
    >`;
  }

  private built({ sheets }: Receipt) {
    const { b, f, session } = this;
    const first = sheets[0]?.name;
    return html`<div class="built" id="built">
      <p>${b.built}: <span translate="no">${sheets.map(({ name }) => name).join(', ')}</span></p>
      <div class="buttons">
        ${button(b.undo, () => void this.undo(), {
          id: 'undo-build',
          name: `${b.undo}. ${b.undoOf(f, sheets.length)}${sheets.map(({ name }) => name).join(', ')}`,
        })}
        ${
          first === undefined
            ? nothing
            : button(
                b.open(first),
                () => void session.attempt(() => session.host.showCell(0, 0, first)),
                { id: 'open-built' },
              )
        }
      </div>
    </div>`;
  }
}
define('sb-build-sheets', BuildSheets);
