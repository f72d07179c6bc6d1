/** The sheets this panel has written, a set for each build: of which plan they are, built again in their place, taken away. */
import { css, html, nothing } from 'lit';
import { buildingOf } from '../building.js';
import { builtOf, type BuiltSet } from '../built.js';
import type { Change } from '../made-from.js';
import { define, SessionElement } from '../parts/element.js';
import { moment } from '../parts/format.js';
import { button } from '../parts/pieces.js';
import { base } from '../parts/styles.js';
import { trialOf } from '../trial.js';
import { buildWords } from '../words/build.js';

/** Names of inputs that are listed; more are counted. */
const MOST_NAMES = 3;

/** A set is told by a key of the program: one stays while others are taken away. */
const keyOf = ({ sheets }: BuiltSet): string => sheets[0]?.key ?? '';

export class BuiltSets extends SessionElement {
  static override properties = { ...SessionElement.properties, asked: { state: true } };
  /** the set that is about to be taken away with visits on it */
  declare private asked: { key: string; visits: number; sheet: string } | undefined;

  static override styles = [
    base,
    css`
      .set {
        padding: 8px;
        margin-top: 8px;
        background: var(--sand);
        border: 1px solid transparent;
        border-radius: 6px;
      }
      .set.old {
        border-color: var(--clay);
      }
      details p {
        overflow-wrap: anywhere;
      }
    `,
  ];

  constructor() {
    super();
    this.asked = undefined;
  }

  private get b() {
    return buildWords(this.session.language).sheets;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    void this.session.attempt(() => builtOf(this.session).load());
  }

  /** What has changed since, in words: "the kit, the site (Season to)". */
  private changed(changes: readonly Change[]): string {
    const { b, f, w, session } = this;
    const names = (keys: Change['keys']): string => {
      const field = (key: Change['keys'][number]) =>
        session.setup?.site.find((each) => each.key === key)?.name ?? key;
      const own = keys.slice(0, MOST_NAMES).map((key) => w.site.name(key, field(key)));
      const more = keys.length - own.length;
      return [...own, ...(more > 0 ? [b.andMore(f, more)] : [])].join(', ');
    };
    return changes
      .map(({ part, keys }) => (part === 'site' ? b.parts.site(names(keys)) : b.parts[part]))
      .join('; ');
  }

  protected override render() {
    const { b, session } = this;
    const { sets } = builtOf(session);
    if (sets.length === 0) return nothing;
    const newest = sets.at(-1);
    return html`<div id="built">
      <h3>${b.built}</h3>
      ${[...sets].reverse().map((set, i) => this.set(set, i, set === newest))}
    </div>`;
  }

  private set(set: BuiltSet, i: number, newest: boolean) {
    const { b, f, session } = this;
    const changes = builtOf(session).changes(set);
    const old = (changes?.length ?? 0) > 0;
    const names = set.sheets.map(({ name }) => name).join(', ');
    const first = set.sheets[0]?.name ?? '';
    const busy = buildingOf(session).writing !== undefined || session.planning !== undefined;
    const tried = trialOf(session).active;
    return html`<div class=${old ? 'set old' : 'set'} data-set=${i}>
      <p>
        <strong>${set.made === '' ? b.madeOnce : b.made(moment(this.f, set.made))}</strong>
        ${b.sheetsFrom(f, set.sheets.length, first)}
      </p>
      <p class=${old ? 'trouble' : 'quiet'} data-of=${changes === undefined ? 'unknown' : old ? 'earlier' : 'now'}>
        ${
          changes === undefined
            ? b.ofUnknown
            : old
              ? b.ofEarlier(this.changed(changes))
              : session.plan
                ? b.ofPlan
                : b.ofInputs
        }
      </p>
      <details>
        <summary>${b.which}</summary>
        <p class="quiet" translate="no">${names}</p>
      </details>
      ${this.asked?.key === keyOf(set) ? this.question(set) : this.actions(set, newest, busy, tried, names, first)}
    </div>`; // prettier-ignore
  }

  private actions(
    set: BuiltSet,
    newest: boolean,
    busy: boolean,
    tried: boolean,
    names: string,
    first: string,
  ) {
    const { b, f, session } = this;
    const living = set.sheets.some(({ of }) => of === 'Log');
    const label = newest ? b.undo : b.takeAway;
    return html`
      <div class="buttons">
        ${button(b.again, () => void this.again(set), {
          small: true,
          ...(newest && { id: 'build-again' }),
          name: b.againOf(first),
          disabled: busy || tried || !session.canPlan,
        })}
        ${button(label, () => void this.takeAway(set), {
          small: true,
          ...(newest && { id: 'undo-build' }),
          name: `${label}. ${b.undoOf(f, set.sheets.length)}${names}`,
          disabled: busy,
        })}
        ${button(
          b.open(first),
          () => void session.attempt(() => session.host.showCell(0, 0, first)),
          { small: true, ...(newest && { id: 'open-built' }) },
        )}
      </div>
      <p class="quiet gap">${living ? b.againKeeps : b.againTakes}</p>
    `;
  }

  /** Visits are proof of work done: they go only when somebody says so. */
  private question(set: BuiltSet) {
    const { b, f } = this;
    const { visits, sheet } = this.asked!;
    return html`
      <p class="trouble" id="visits-too">${b.visitsToo(f, visits, sheet)}</p>
      <div class="buttons">
        ${button(b.takeVisits, () => void this.takeNow(set), { small: true, id: 'take-visits' })}
        ${button(b.leave, () => void this.leave(), { small: true, id: 'leave-sheets' })}
      </div>
    `;
  }

  /** The newest set is what the person has just written: the way back from it takes the focus. */
  focusNewest(): Promise<void> {
    return this.focusOn('#undo-build');
  }

  private async again(set: BuiltSet): Promise<void> {
    await buildingOf(this.session).again(set);
    await this.focusOn('#build-again');
  }

  private async takeAway(set: BuiltSet): Promise<void> {
    const { session } = this;
    await session.attempt(async () => {
      const on = await buildingOf(session).visitsOn(set);
      if (on.visits === 0) return this.takeNow(set);
      this.asked = { key: keyOf(set), ...on };
      session.say(this.b.visitsToo(this.f, on.visits, on.sheet));
      await this.focusOn('#leave-sheets');
    });
  }

  private async takeNow(set: BuiltSet): Promise<void> {
    this.asked = undefined;
    await buildingOf(this.session).takeAway(set);
    await this.updateComplete;
    // the buttons are gone: back to where the sheets are built from
    this.dispatchEvent(new CustomEvent('gone'));
  }

  private async leave(): Promise<void> {
    this.asked = undefined;
    await this.focusOn('#undo-build');
  }

  private async focusOn(selector: string): Promise<void> {
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(selector)?.focus();
  }
}
define('sb-built-sets', BuiltSets);
