/** One picture of the season: drawn when the drawing library is there, and again when its numbers, the language or the width change. */
import { css, html, nothing, type PropertyValues } from 'lit';
import type {
  CoilSeries,
  CrewSeries,
  SeasonSeries,
  WaterLeftSeries,
} from '../../workbook/series-types.js';
import { define, SessionElement } from '../parts/element.js';
import { base } from '../parts/styles.js';
import { loadPictures } from '../pictures/load.js';
import { pictureStyles } from '../pictures/styles.js';
import { buildWords } from '../words/build.js';

export type Shown =
  | { kind: 'season'; series: SeasonSeries }
  | { kind: 'crew'; series: CrewSeries }
  | { kind: 'water'; series: WaterLeftSeries }
  | { kind: 'coil'; series: CoilSeries };

type Pictures = Awaited<ReturnType<typeof loadPictures>>;
const NARROWEST = 220;

function draw(pictures: Pictures, shown: Shown, language: 'en' | 'es', width: number): HTMLElement {
  const words = pictures.pictureWords(language);
  switch (shown.kind) {
    case 'season':
      return pictures.seasonPicture(shown.series, words, width);
    case 'crew':
      return pictures.crewWeeksPicture(shown.series, words, width);
    case 'water':
      return pictures.waterLeftPicture(shown.series, words, width);
    case 'coil':
      return pictures.coilPicture(shown.series, words, width);
  }
}

export class BuildPicture extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    shown: { attribute: false },
    pictures: { state: true },
    width: { state: true },
  };
  declare shown: Shown;
  declare private pictures: Pictures | undefined;
  declare private width: number;
  private readonly watch = new ResizeObserver(([entry]) => {
    const width = Math.floor(entry?.contentRect.width ?? 0);
    if (width > 0) this.width = width;
  });
  private drawn: HTMLElement | undefined;
  private drawnOf = '';
  private drawnFrom: object | undefined;

  static override styles = [
    base,
    pictureStyles,
    css`
      :host {
        min-height: 24px;
      }
      .picture {
        margin-top: 8px;
      }
    `,
  ];

  constructor() {
    super();
    this.pictures = undefined;
    this.width = 0;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.watch.observe(this);
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.watch.disconnect();
  }

  protected override firstUpdated(): void {
    void this.session.attempt(async () => {
      this.pictures = await loadPictures();
    });
  }

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const { pictures, width, shown, session } = this;
    if (!pictures || width === 0) return;
    const of = `${shown.kind} ${session.language} ${width}`;
    if (this.drawnFrom === shown.series && this.drawnOf === of) return;
    const opened = this.drawn?.querySelector('details')?.open === true;
    this.drawn = draw(pictures, shown, session.language, Math.max(NARROWEST, width));
    // the picture changes under whoever reads its numbers: they stay open
    const details = this.drawn.querySelector('details');
    if (opened && details) details.open = true;
    [this.drawnFrom, this.drawnOf] = [shown.series, of];
    performance.mark(`picture-${shown.kind}`);
  }

  protected override render() {
    if (this.drawn) return this.drawn;
    return this.pictures === undefined
      ? html`<p class="quiet">${buildWords(this.session.language).pictures.loading}</p>`
      : nothing;
  }
}
define('sb-picture', BuildPicture);
