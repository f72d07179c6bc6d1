/** Waterings of a season as columns: one row an event, numbers only. Words are made from them when somebody reads. */

/** Kinds of event: planned with the main means, a pad soaked as planned, and both as really done on past days. */
export const WATERING = 0;
export const SOAK = 1;
export const GIVEN = 2;
export const GIVEN_SOAK = 3;

/** Columns of events; rows of one tree in the order of its days. */
export interface EventColumns {
  /** day of the season, 0 the first */
  day: Uint16Array;
  kind: Uint8Array;
  /** applied for one tree, before losses [L] */
  litres: Float64Array;
  /** usable water used that morning, and without watering before the next allowed day [%] */
  usedNow: Uint16Array;
  usedThen: Uint16Array;
  /** that next allowed day, or the season's length if there is none */
  next: Uint16Array;
}

const columns = (capacity: number): EventColumns => ({
  day: new Uint16Array(capacity),
  kind: new Uint8Array(capacity),
  litres: new Float64Array(capacity),
  usedNow: new Uint16Array(capacity),
  usedThen: new Uint16Array(capacity),
  next: new Uint16Array(capacity),
});

/** A list of events that grows. */
export class EventList {
  length = 0;
  columns: EventColumns;

  constructor(private capacity: number) {
    this.columns = columns(capacity);
  }

  /** Shares are given as shares, kept as whole percent. */
  add(
    day: number,
    kind: number,
    litres: number,
    usedNow: number,
    usedThen: number,
    next: number,
  ): void {
    if (this.length === this.capacity) this.grow(2 * this.capacity);
    const { columns: to, length: at } = this;
    to.day[at] = day;
    to.kind[at] = kind;
    to.litres[at] = litres;
    to.usedNow[at] = Math.round(usedNow * 100);
    to.usedThen[at] = Math.round(usedThen * 100);
    to.next[at] = next;
    this.length++;
  }

  append(other: EventList): void {
    const length = this.length + other.length;
    if (length > this.capacity) this.grow(Math.max(length, 2 * this.capacity));
    for (const key of KEYS)
      this.columns[key].set(other.columns[key].subarray(0, other.length), this.length);
    this.length = length;
  }

  /** The columns cut to their length, in memory of their own. */
  cut(): EventColumns {
    return resized(this.columns, this.length);
  }

  private grow(capacity: number): void {
    this.capacity = capacity;
    this.columns = resized(this.columns, capacity);
  }
}

const KEYS = Object.keys(columns(0)) as (keyof EventColumns)[];

function resized(from: EventColumns, capacity: number): EventColumns {
  const to = columns(capacity);
  for (const key of KEYS) to[key].set(from[key].subarray(0, capacity));
  return to;
}
