/** Live figures beside the list: offered, or there with a way to take them away. */
import { html, nothing } from 'lit';
import type { SheetReading } from '../../workers/plan-room.js';
import { livePlace, showLive, takeLiveAway, type LivePlace } from '../live-columns.js';
import { INPUTS_SHEET, LIVE_HEADERS, liveColumns } from '../live-figures.js';
import { liveWords } from '../words/live.js';
import { define, SessionElement } from './element.js';
import { button } from './pieces.js';
import { base } from './styles.js';

export class LiveFigures extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    place: { state: true },
    busy: { state: true },
  };
  /** null while nobody knows */
  declare private place: LivePlace | undefined | null;
  declare private busy: boolean;
  private askedOf: SheetReading | undefined;

  static override styles = [base];

  constructor() {
    super();
    this.place = null;
    this.busy = false;
  }

  protected override updated(): void {
    void this.look();
  }

  /** Looked at again for each reading of the list. */
  private async look(): Promise<void> {
    const { session } = this;
    const { reading } = session;
    if (!reading || reading.rows === 0 || reading === this.askedOf || session.isWriting) return;
    this.askedOf = reading;
    try {
      const place = await livePlace(session);
      if (reading === this.askedOf) this.place = place;
    } catch (error) {
      // somebody edits a cell, or the sheet is on its way out: the next reading looks again
      this.place = null;
      session.sayError(error);
    }
  }

  /** The button goes; what stands in its place is next. */
  private async press(work: () => Promise<void>): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    await this.session.attempt(work);
    this.askedOf = undefined;
    await this.look();
    this.busy = false;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('button')?.focus();
  }

  protected override render() {
    const { session, place, busy } = this;
    const { reading } = session;
    const k = liveWords(session.language);
    const isPossible = reading !== undefined && liveColumns(reading.columns, 0).length > 0;
    if (place === null || (place === undefined && !isPossible)) return nothing;
    const headers = LIVE_HEADERS.join(', ');
    return html`<section aria-labelledby="live-title">
      <h3 id="live-title">${k.title}</h3>
      <p class="quiet">
        ${place ? k.there(headers, place.inputs || INPUTS_SHEET) : k.offers(headers, INPUTS_SHEET)}
      </p>
      <div class="buttons">
        ${
          place
            ? button(
                k.takeAway,
                () =>
                  void this.press(async () => {
                    const isWhole = await takeLiveAway(session, place);
                    session.say(isWhole ? k.gone : k.goneColumns, 'fine');
                  }),
                { small: true, id: 'take-live', disabled: busy },
              )
            : button(
                k.show,
                () =>
                  void this.press(async () => {
                    const sheet = await showLive(session);
                    session.say(k.shown(sheet), 'fine');
                  }),
                { small: true, id: 'show-live', disabled: busy },
              )
        }
      </div>
    </section>`;
  }
}
define('sb-live-figures', LiveFigures);
