/**
 * Plans of many trees as columns: typed arrays only, so that a worker hands them over without copying and a
 * hundred thousand trees fit into memory. Sentences and waterings are made from them when somebody reads them.
 */
import { EventList, type EventColumns } from './events.js';
import type { OutcomeNumbers } from './kernel.js';

/** What became of a tree. */
export const PLANNED = 0;
/** no means keeps it without more stress than tolerated; the one with the least is chosen */
export const NOT_KEPT = 1;
/** nothing to choose from, or nothing to plan: the reason is found by asking the tree's row again */
export const NOT_PLANNED = 2;

/** Nothing chosen. */
export const NONE = 255;

export interface PlanColumns {
  trees: number;
  state: Uint8Array;
  /** which of its options is chosen, NONE if none */
  chosen: Uint8Array;
  /** rows of tree t: options optionsFrom[t] up to optionsFrom[t + 1], events of its chosen one likewise */
  optionsFrom: Uint32Array;
  eventsFrom: Uint32Array;
  options: OptionColumns;
  events: EventColumns;
}

/** One row for each tree and option; for one tree and season. */
export interface OptionColumns {
  waterings: Uint16Array;
  litres: Float64Array;
  visits: Uint16Array;
  stressDays: Uint16Array;
  leastKs: Float64Array;
  cost: Float64Array;
}

/** The outcome in a row of the columns. */
export const outcomeAt = (columns: OptionColumns, row: number): OutcomeNumbers => ({
  waterings: columns.waterings[row]!,
  litres: columns.litres[row]!,
  visits: columns.visits[row]!,
  stressDays: columns.stressDays[row]!,
  leastKs: columns.leastKs[row]!,
  cost: columns.cost[row]!,
});

/** All buffers of the columns, to be handed over with a message. */
export const buffersOf = ({ options, events, ...own }: PlanColumns): ArrayBuffer[] =>
  [...Object.values(own), ...Object.values(options), ...Object.values(events)].flatMap((column) =>
    ArrayBuffer.isView(column) ? [column.buffer as ArrayBuffer] : [],
  );

/** Plans of a batch of trees, written one after another. */
export class PlanWriter {
  private readonly state: number[] = [];
  private readonly chosen: number[] = [];
  private readonly optionsFrom: number[] = [0];
  private readonly eventsFrom: number[] = [0];
  private readonly outcomes: OutcomeNumbers[] = [];
  private readonly events = new EventList(1024);

  /** The next tree. */
  add(
    state: number,
    outcomes: readonly OutcomeNumbers[] = [],
    chosen = NONE,
    events?: EventList,
  ): void {
    this.state.push(state);
    this.chosen.push(chosen);
    this.outcomes.push(...outcomes);
    if (events) this.events.append(events);
    this.optionsFrom.push(this.outcomes.length);
    this.eventsFrom.push(this.events.length);
  }

  columns(): PlanColumns {
    const { outcomes } = this;
    const whole = (key: 'waterings' | 'visits' | 'stressDays') =>
      Uint16Array.from(outcomes, (o) => o[key]);
    const real = (key: 'litres' | 'leastKs' | 'cost') => Float64Array.from(outcomes, (o) => o[key]);
    return {
      trees: this.state.length,
      state: Uint8Array.from(this.state),
      chosen: Uint8Array.from(this.chosen),
      optionsFrom: Uint32Array.from(this.optionsFrom),
      eventsFrom: Uint32Array.from(this.eventsFrom),
      options: {
        waterings: whole('waterings'),
        litres: real('litres'),
        visits: whole('visits'),
        stressDays: whole('stressDays'),
        leastKs: real('leastKs'),
        cost: real('cost'),
      },
      events: this.events.cut(),
    };
  }
}
