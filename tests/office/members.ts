/**
 * What an object of the host has, as data: properties, objects behind properties, methods, with the requirement set (the
 * minor number of ExcelApi 1.x) that brought each. Whatever is not listed does not exist.
 */

/** A sentence about what is wrong with an argument, or undefined. */
export type Check = (value: unknown) => string | undefined;

export interface Prop<T> {
  since: number;
  get: (target: T) => unknown;
  /** absent: read-only */
  put?: (target: T, value: never) => void;
  check?: Check;
}

export interface Nav<T> {
  since: number;
  kind: () => AnyKind;
  of: (target: T) => unknown;
}

export interface Arg {
  check: Check;
  optional: boolean;
}

export interface Method<T> {
  since: number;
  args: Arg[];
  run: (target: T, ...args: never[]) => unknown;
  /** what it gives: an object of the host, a value after the next sync, or nothing */
  gives: { kind: () => AnyKind; orNull: boolean } | 'result' | 'nothing';
}

export interface Kind<T> {
  name: string;
  props: Record<string, Prop<T>>;
  navs: Record<string, Nav<T>>;
  methods: Record<string, Method<T>>;
  /** of a collection */
  items?: { kind: () => AnyKind; of: (target: T) => readonly unknown[] };
}

// Kinds of every target stand in one graph.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
export type AnyKind = Kind<any>;

/** An event: handlers are kept on the target. */
export interface Handlers {
  add(handler: (args: unknown) => unknown): void;
}

const complaint = (what: string): Check => {
  const test: Record<string, (v: unknown) => boolean> = {
    string: (v) => typeof v === 'string',
    number: (v) => typeof v === 'number' && Number.isFinite(v),
    boolean: (v) => typeof v === 'boolean',
    object: (v) => typeof v === 'object' && v !== null,
    function: (v) => typeof v === 'function',
  };
  return (value) => (test[what]!(value) ? undefined : `a ${what} is expected, got ${show(value)}`);
};

export function show(value: unknown): string {
  if (typeof value === 'function') return 'a function';
  if (value === undefined) return 'undefined';
  const text = typeof value === 'object' ? safeJson(value) : JSON.stringify(value);
  return text.length > 80 ? `${text.slice(0, 79)}…` : text;
}

function safeJson(value: unknown): string {
  try {
    return JSON.stringify(value);
  } catch {
    return 'an object';
  }
}

export const text = complaint('string');
export const number = complaint('number');
export const flag = complaint('boolean');
export const object = complaint('object');
export const callback = complaint('function');
export const anything: Check = () => undefined;
export const oneOf =
  (...words: string[]): Check =>
  (value) =>
    words.includes(value as string) ? undefined : `${show(value)} is none of ${words.join(', ')}`;
/** An object with no other keys than these, each as its check says. */
export const shape =
  (keys: Record<string, Check>): Check =>
  (value) => {
    const wrong = object(value);
    if (wrong !== undefined) return wrong;
    for (const [key, own] of Object.entries(value as object)) {
      if (!(key in keys)) return `${key} is not known here`;
      const why = own === undefined ? undefined : keys[key]!(own);
      if (why !== undefined) return `${key}: ${why}`;
    }
    return undefined;
  };
export const either =
  (...checks: Check[]): Check =>
  (value) =>
    checks.some((check) => check(value) === undefined) ? undefined : checks[0]!(value);

export const must = (check: Check): Arg => ({ check, optional: false });
export const may = (check: Check): Arg => ({ check, optional: true });

export const kind = <T>(name: string, members: Partial<Omit<Kind<T>, 'name'>>): Kind<T> => ({
  name,
  props: {},
  navs: {},
  methods: {},
  ...members,
});

/** A property kept as it is on the target. */
export const kept = <T>(since: number, key: keyof T & string, check: Check): Prop<T> => ({
  since,
  get: (target) => target[key],
  put: (target, value) => void ((target as Record<string, unknown>)[key] = value),
  check,
});
export const readOnly = <T>(since: number, get: (target: T) => unknown): Prop<T> => ({
  since,
  get,
});
export const nav = <T>(since: number, to: () => AnyKind, of: (target: T) => unknown): Nav<T> => ({
  since,
  kind: to,
  of,
});
export const does = <T>(
  since: number,
  args: Arg[],
  run: (target: T, ...args: never[]) => unknown,
): Method<T> => ({ since, args, run, gives: 'nothing' });
export const gives = <T>(
  since: number,
  to: () => AnyKind,
  args: Arg[],
  run: (target: T, ...args: never[]) => unknown,
): Method<T> => ({ since, args, run, gives: { kind: to, orNull: false } });
export const givesOrNull = <T>(
  since: number,
  to: () => AnyKind,
  args: Arg[],
  run: (target: T, ...args: never[]) => unknown,
): Method<T> => ({ since, args, run, gives: { kind: to, orNull: true } });
export const answers = <T>(
  since: number,
  args: Arg[],
  run: (target: T, ...args: never[]) => unknown,
): Method<T> => ({ since, args, run, gives: 'result' });
