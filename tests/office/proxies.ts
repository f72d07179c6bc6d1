/**
 * A request context and its proxy objects: nothing happens before sync, nothing can be read that was not loaded and synced,
 * nothing exists that the host does not have.
 */
import { OfficeError } from './errors.js';
import { show, type AnyKind, type Method } from './members.js';

/** What the context must know of the host. */
export interface Terms {
  /** ExcelApi 1.x */
  set: number;
  /** most bytes of a request and of an answer */
  payload: number;
  onSync(bytes: number, operations: number, statements: readonly string[]): void;
  /** throws when the host takes nothing now */
  beforeSync(): void;
  afterSync(): void;
}

interface Operation {
  statement: string;
  bytes: number;
  run: () => void;
}

const NOT_YET = Symbol('not yet there');

/** The state behind one proxy. */
class Reference {
  target: unknown = NOT_YET;
  readonly loaded = new Map<string, unknown>();
  readonly children = new Map<string, object>();
  synced = false;
  items: object[] | undefined;
  self: object | undefined;

  constructor(
    readonly kind: AnyKind,
    readonly path: string,
    /** for objects behind a property of another */
    private readonly resolve?: () => unknown,
  ) {}

  /** The thing itself, while a batch runs. Null for a null object. */
  now(): unknown {
    if (this.target !== NOT_YET) return this.target;
    if (this.resolve) return this.resolve();
    throw new OfficeError('InvalidObjectPath', `${this.path} does not exist yet`, this.path);
  }
}

const references = new WeakMap<object, Reference>();

/** What an argument that is a proxy stands for, while a batch runs. */
const unproxied = (value: unknown): unknown => {
  if (Array.isArray(value)) return value;
  if (typeof value !== 'object' || value === null) return value;
  const own = references.get(value);
  if (own) return own.now();
  return value;
};

/** Name of the kind of object a proxy stands for. */
export const kindOf = (value: unknown): string | undefined =>
  typeof value === 'object' && value !== null ? references.get(value)?.kind.name : undefined;

/** Bytes a value takes in a request. */
function bytesOf(value: unknown): number {
  if (kindOf(value) !== undefined || value === undefined || typeof value === 'function') return 8;
  return JSON.stringify(value).length;
}

/** Rough size of one statement without its values [bytes]. */
const OVERHEAD = 60;

export class Context {
  private queue: Operation[] = [];
  private answerBytes = 0;

  constructor(
    private readonly terms: Terms,
    workbook: { kind: () => AnyKind; target: unknown },
  ) {
    const own = new Reference(workbook.kind(), 'context.workbook', () => workbook.target);
    this.workbook = this.proxy(own);
  }

  readonly workbook: object;

  private push(statement: string, values: unknown[], run: () => void): void {
    const bytes = OVERHEAD + statement.length + values.reduce<number>((n, v) => n + bytesOf(v), 0);
    this.queue.push({ statement, bytes, run });
  }

  sync = async (): Promise<void> => {
    const { queue, terms } = this;
    this.queue = [];
    await Promise.resolve();
    const bytes = queue.reduce((n, o) => n + o.bytes, 0);
    terms.onSync(
      bytes,
      queue.length,
      queue.map((o) => o.statement),
    );
    if (bytes > terms.payload)
      throw new OfficeError(
        'RequestPayloadSizeLimitExceeded',
        `The request is too large: ${bytes} bytes`,
      );
    terms.beforeSync();
    this.answerBytes = 0;
    for (const { statement, run } of queue) {
      try {
        run();
      } catch (error) {
        if (error instanceof OfficeError) throw error.at(statement);
        throw error;
      }
    }
    if (this.answerBytes > terms.payload)
      throw new OfficeError(
        'ResponsePayloadSizeLimitExceeded',
        `The answer is too large: ${this.answerBytes} bytes`,
      );
    terms.afterSync();
  };

  private needs(since: number, what: string): void {
    if (since > this.terms.set)
      throw new OfficeError(
        'ApiNotFound',
        `${what} needs ExcelApi 1.${since}; this host has 1.${this.terms.set}`,
        what,
      );
  }

  private proxy(own: Reference): object {
    const handler: ProxyHandler<object> = {
      get: (_, key) =>
        typeof key === 'symbol' || key === 'then' ? undefined : this.read(own, key),
      set: (_, key, value) => {
        this.write(own, String(key), value);
        return true;
      },
      has: () => {
        throw new OfficeError(
          'InvalidOperation',
          `members of ${own.kind.name} cannot be asked for with "in"`,
        );
      },
    };
    const made = new Proxy({}, handler);
    references.set(made, own);
    own.self = made;
    return made;
  }

  private read(own: Reference, key: string): unknown {
    const { kind, path } = own;
    if (key === 'context') return this;
    if (key === 'load') return (wanted: unknown) => this.load(own, wanted);
    if (key === 'isNullObject') {
      if (!own.synced) throw notLoaded(`${path}.isNullObject`);
      return own.target === null;
    }
    if (key === 'items' && kind.items) {
      if (own.items === undefined) throw notLoaded(`${path}.items`);
      return own.items;
    }
    const prop = kind.props[key];
    if (prop) {
      this.needs(prop.since, `${kind.name}.${key}`);
      if (!own.loaded.has(key)) throw notLoaded(`${path}.${key}`);
      return own.loaded.get(key);
    }
    if (kind.navs[key]) return this.child(own, key);
    const method = kind.methods[key];
    if (method) return (...args: unknown[]) => this.call(own, key, method, args);
    throw unknownMember(kind, key);
  }

  private child(own: Reference, key: string): object {
    const nav = own.kind.navs[key]!;
    this.needs(nav.since, `${own.kind.name}.${key}`);
    const kept = own.children.get(key);
    if (kept) return kept;
    const made = this.proxy(
      new Reference(nav.kind(), `${own.path}.${key}`, () => {
        const parent = own.now();
        return parent === null ? null : nav.of(parent);
      }),
    );
    own.children.set(key, made);
    return made;
  }

  private write(own: Reference, key: string, value: unknown): void {
    const { kind, path } = own;
    const prop = kind.props[key];
    if (!prop) throw unknownMember(kind, key);
    this.needs(prop.since, `${kind.name}.${key}`);
    if (!prop.put)
      throw new OfficeError('InvalidOperation', `${kind.name}.${key} is read-only`, path);
    const why = prop.check?.(value);
    if (why !== undefined)
      throw new OfficeError('InvalidArgument', `${kind.name}.${key}: ${why}`, path);
    const { put } = prop;
    // What is handed over is what it was then: the host gets a copy.
    const copy: unknown = typeof value === 'object' ? structuredClone(value) : value;
    this.push(`${path}.${key} = ${show(value)};`, [value], () => {
      const target = own.now();
      if (target !== null) put(target, copy as never);
    });
  }

  private call(own: Reference, key: string, method: Method<never>, args: unknown[]): unknown {
    const { kind } = own;
    this.needs(method.since, `${kind.name}.${key}`);
    const statement = `${own.path}.${key}(${args.map((a) => (kindOf(a) ? kindOf(a) : show(a))).join(', ')})`;
    if (args.length > method.args.length)
      throw new OfficeError(
        'InvalidArgument',
        `${kind.name}.${key} takes ${method.args.length} arguments, got ${args.length}`,
        statement,
      );
    method.args.forEach(({ check, optional }, i) => {
      if (args[i] === undefined && optional) return;
      const why = check(args[i]);
      if (why !== undefined)
        throw new OfficeError(
          'InvalidArgument',
          `${kind.name}.${key}, argument ${i + 1}: ${why}`,
          statement,
        );
    });
    const { gives } = method;
    const run = (): unknown => {
      const target = own.now();
      return target === null
        ? null
        : method.run(target as never, ...(args.map(unproxied) as never[]));
    };
    if (gives === 'nothing') {
      this.push(`${statement};`, args, () => void run());
      return undefined;
    }
    if (gives === 'result') return this.result(statement, args, run);
    const made = new Reference(gives.kind(), statement);
    this.push(`${statement};`, args, () => {
      const found = run() ?? null;
      if (found === null && !gives.orNull && own.now() !== null)
        throw new OfficeError('ItemNotFound', `There is nothing at ${statement}`, statement);
      made.target = found;
      made.synced = true;
    });
    return this.proxy(made);
  }

  private result(statement: string, args: unknown[], run: () => unknown): object {
    let value: unknown = NOT_YET;
    this.push(`${statement};`, args, () => {
      value = run();
    });
    return {
      get value() {
        if (value === NOT_YET)
          throw new OfficeError(
            'ValueNotLoaded',
            `The value of ${statement} is not there before sync`,
          );
        return value;
      },
    };
  }

  private load(own: Reference, wanted: unknown): object {
    const paths = loadPaths(wanted);
    if (paths.length === 0)
      throw new OfficeError(
        'InvalidArgument',
        `${own.path}.load needs the names of properties`,
        own.path,
      );
    for (const path of paths) this.checkPath(own.kind, path);
    this.push(`${own.path}.load(${show(paths)});`, [paths], () => {
      own.synced = true;
      const target = own.now();
      if (own.target === NOT_YET) own.target = target;
      own.items = undefined;
      if (target !== null) for (const path of paths) this.fill(own, target, path);
    });
    return own.self!;
  }

  private checkPath(kind: AnyKind, path: string[]): void {
    const [head, ...rest] = path;
    if (head === undefined) return;
    if (kind.items) {
      this.checkPath(kind.items.kind(), head === 'items' ? rest : path);
      return;
    }
    const prop = kind.props[head];
    const next = kind.navs[head];
    if (prop) this.needs(prop.since, `${kind.name}.${head}`);
    else if (next) {
      this.needs(next.since, `${kind.name}.${head}`);
      this.checkPath(next.kind(), rest);
    } else throw unknownMember(kind, head);
    if (prop && rest.length > 0) throw unknownMember(kind, path.join('/'));
  }

  private fill(own: Reference, target: unknown, path: string[]): void {
    const [head, ...rest] = path;
    const { kind } = own;
    if (kind.items) {
      const deeper = head === 'items' ? rest : path;
      own.items ??= kind.items.of(target as never).map((item, i) => {
        const made = new Reference(kind.items!.kind(), `${own.path}.items[${i}]`);
        made.target = item;
        made.synced = true;
        return this.proxy(made);
      });
      for (const item of own.items) {
        const inner = references.get(item)!;
        if (deeper.length > 0) this.fill(inner, inner.target, deeper);
      }
      return;
    }
    if (head === undefined) return;
    const prop = kind.props[head];
    if (prop) {
      const value = prop.get(target as never);
      this.answerBytes += bytesOf(value);
      own.loaded.set(head, structuredClone(value));
      return;
    }
    const inner = references.get(this.child(own, head))!;
    const next = inner.now();
    inner.synced = true;
    if (inner.target === NOT_YET) inner.target = next;
    if (next !== null) this.fill(inner, next, rest);
  }
}

function loadPaths(wanted: unknown): string[][] {
  const names =
    typeof wanted === 'string'
      ? wanted.split(',')
      : Array.isArray(wanted)
        ? wanted.flatMap((w) => String(w).split(','))
        : [];
  return names.map((n) => n.trim().split('/')).filter((p) => p[0] !== '');
}

const notLoaded = (what: string): OfficeError =>
  new OfficeError(
    'PropertyNotLoaded',
    `The property ${what} is not available: load it and sync first`,
    what,
  );

const unknownMember = (kind: AnyKind, key: string): OfficeError =>
  new OfficeError(
    'UnknownMember',
    `Excel.${kind.name} has no member ${key}, as far as this stand-in knows`,
  );
