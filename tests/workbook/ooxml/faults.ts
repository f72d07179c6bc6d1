/** Everything wrong with the parts of a workbook file, as sentences that begin with the part. */
import { countFaults, orderFaults } from './orders.js';
import { each, first, localName, parse, relationsName, relationsOf, walk, type Node, type Parts, type Relation } from './parts.js'; // prettier-ignore
import { formulaFaults, sheetFaults, type Book } from './sheet-faults.js';

const decoder = new TextDecoder('utf-8', { fatal: true });
const ROOT = '/[Content_Types].xml';

/** What each kind of relation leads to. */
const KINDS: Record<string, RegExp> = {
  officeDocument: /sheet\.main\+xml$/,
  worksheet: /\.worksheet\+xml$/,
  styles: /\.styles\+xml$/,
  sharedStrings: /\.sharedStrings\+xml$/,
  theme: /\.theme\+xml$/,
  table: /\.table\+xml$/,
  drawing: /\.drawing\+xml$/,
  chart: /\.chart\+xml$/,
  image: /^image\/(png|jpeg|svg\+xml)$/,
  'core-properties': /core-properties\+xml$/,
  'custom-properties': /custom-properties\+xml$/,
  'extended-properties': /extended-properties\+xml$/,
};

class Package {
  readonly faults: string[] = [];
  private readonly trees = new Map<string, Node | undefined>();
  private readonly types = new Map<string, string>();
  private readonly endings = new Map<string, string>();

  constructor(readonly parts: Parts) {
    for (const [name] of parts) if (/\.(xml|rels)$/.test(name)) this.read(name);
    this.readTypes();
    this.checkRelations();
  }

  say(part: string, ...sentences: string[]): void {
    this.faults.push(...sentences.map((sentence) => `${part}: ${sentence}`));
  }

  tree = (name: string): Node | undefined => this.trees.get(name);

  private read(name: string): void {
    try {
      const root = parse(decoder.decode(this.parts.get(name)));
      this.trees.set(name, root);
      if (!/\/theme\d*\.xml$/.test(name)) this.say(name, ...orderFaults(root), ...countFaults(root));
    } catch (error) {
      this.trees.set(name, undefined);
      this.say(name, (error as Error).message);
    }
  }

  private readTypes(): void {
    const root = this.tree(ROOT);
    if (!root) return this.say(ROOT, 'is not there');
    for (const { name, attributes: a } of root.children) {
      const [map, key] =
        name === 'Default'
          ? [this.endings, (a['Extension'] ?? '').toLowerCase()]
          : [this.types, a['PartName'] ?? ''];
      if (map.has(key)) this.say(ROOT, `names ${key} twice`);
      map.set(key, a['ContentType'] ?? '');
    }
    for (const [part] of this.types)
      if (!this.parts.has(part)) this.say(ROOT, `names ${part}, which is not there`);
    for (const [part] of this.parts)
      if (part !== ROOT && this.typeOf(part) === undefined) this.say(ROOT, `gives ${part} no type`);
  }

  private typeOf = (part: string): string | undefined =>
    this.types.get(part) ?? this.endings.get(part.replace(/^.*\./, '').toLowerCase());

  private checkRelations(): void {
    const reached = new Set<string>([ROOT]);
    const follow = (part: string): void => {
      const own = relationsName(part);
      if (!this.parts.has(own) || this.trees.get(own) === undefined) return;
      reached.add(own);
      const ids = new Set<string>();
      for (const { id, type, target, outside } of relationsOf(this.parts, part)) {
        if (ids.has(id)) this.say(own, `has ${id} twice`);
        ids.add(id);
        if (outside) continue;
        if (!this.parts.has(target)) {
          this.say(own, `${id} leads to ${target}, which is not there`);
          continue;
        }
        const kind = KINDS[type];
        if (!kind) this.say(own, `${id} is of a kind ${type}`);
        else if (!kind.test(this.typeOf(target) ?? ''))
          this.say(own, `${id} is a ${type}, but ${target} is of type ${this.typeOf(target)}`);
        if (!reached.has(target)) {
          reached.add(target);
          follow(target);
        }
      }
    };
    follow('/');
    for (const [part] of this.parts)
      if (!reached.has(part)) this.say(part, 'nothing leads to it');
  }

  related = (part: string): Map<string, Relation> =>
    new Map(relationsOf(this.parts, part).map((r) => [r.id, r]));
} // prettier-ignore

/** Numbers that cell formats take from other lists, and where each list stands. */
const TAKES = [['fontId', 'fonts'], ['fillId', 'fills'], ['borderId', 'borders']] as const; // prettier-ignore
/** First number of formats a file may add. */
const OWN_FORMATS = 164;

function styleFaults(styles: Node): string[] {
  const faults: string[] = [];
  const size = (list: string): number => first(styles, list)?.children.length ?? 0;
  const own = new Set(each(first(styles, 'numFmts'), 'numFmt').map((n) => n.attributes['numFmtId']));
  if (own.size !== size('numFmts')) faults.push('two number formats have one number');
  for (const list of ['cellStyleXfs', 'cellXfs'])
    for (const { attributes: a } of each(first(styles, list), 'xf')) {
      for (const [key, from] of TAKES)
        if (Number(a[key] ?? 0) >= size(from)) faults.push(`a format of ${list} has ${key} ${a[key]} of ${size(from)}`);
      const number = Number(a['numFmtId'] ?? 0);
      if (number >= OWN_FORMATS && !own.has(a['numFmtId'])) faults.push(`there is no number format ${number}`);
      if (list === 'cellXfs' && Number(a['xfId'] ?? 0) >= size('cellStyleXfs')) faults.push(`there is no base format ${a['xfId']}`);
    }
  const [none, gray] = each(first(styles, 'fills'), 'fill').map((f) => first(f, 'patternFill')?.attributes['patternType']);
  if (none !== 'none' || gray !== 'gray125') faults.push('the first two fills are not none and gray125');
  return faults;
} // prettier-ignore

/** Areas of a name: quoted sheets, ranges, whole rows or columns, joined by commas. */
const AREA =
  /^(?:'(?:[^']|'')+'|[A-Za-z_][\w.]*)!(?:\$[A-Z]{1,3}\$\d+(?::\$[A-Z]{1,3}\$\d+)?|\$[A-Z]{1,3}:\$[A-Z]{1,3}|\$\d+:\$\d+)$/;

function bookFaults(pkg: Package, workbook: Node, tableNames: readonly string[]): string[] {
  const faults: string[] = [];
  const sheets = each(first(workbook, 'sheets'), 'sheet').map((s) => s.attributes);
  const names = sheets.map((s) => s['name'] ?? '');
  const twice = (list: readonly (string | undefined)[], what: string): void => {
    if (new Set(list.map((v) => v?.toLowerCase())).size !== list.length) faults.push(`two ${what} are alike`);
  };
  twice(names, 'names of sheets');
  twice(sheets.map((s) => s['sheetId']), 'numbers of sheets');
  twice(sheets.map((s) => s['r:id']), 'relations of sheets');
  for (const name of names)
    if (name === '' || name.length > 31 || /[[\]:*?/\\]|^'|'$/.test(name)) faults.push(`"${name}" is no name of a sheet`);
  const related = pkg.related('/xl/workbook.xml');
  for (const s of sheets)
    if (related.get(s['r:id'] ?? '')?.type !== 'worksheet') faults.push(`the sheet ${s['name']} has no part`);
  const defined = each(first(workbook, 'definedNames'), 'definedName');
  twice([...defined.map((n) => `${n.attributes['localSheetId'] ?? ''} ${n.attributes['name']}`), ...tableNames.map((n) => ` ${n}`)], 'names');
  for (const { attributes: a, text } of defined) {
    const name = a['name'] ?? '';
    if (!/^[A-Za-z_\\][\w.\\]*$/.test(name) || /^([A-Z]{1,3}\d+|[rc]\d*)$/i.test(name)) faults.push(`"${name}" is no name`);
    if (a['localSheetId'] !== undefined && !(Number(a['localSheetId']) < sheets.length)) faults.push(`${name} belongs to no sheet`);
    for (const part of text.split(/,(?=(?:[^']*'[^']*')*[^']*$)/))
      if (!AREA.test(part)) faults.push(`the name ${name} is "${part}", which is no place`);
    faults.push(...formulaFaults(text, new Set(names)).map((said) => `the name ${name} ${said}`));
  }
  return faults;
} // prettier-ignore

function drawingFaults(pkg: Package, part: string, root: Node, sheetNames: Set<string>): void {
  const related = pkg.related(part);
  const ids = [...walk(root)].filter((n) => localName(n) === 'cNvPr').map((n) => n.attributes['id']);
  if (new Set(ids).size !== ids.length) pkg.say(part, 'two drawings have one number');
  for (const node of walk(root))
    for (const key of ['r:id', 'r:embed'])
      if (node.attributes[key] !== undefined && !related.has(node.attributes[key]!)) pkg.say(part, `${key} ${node.attributes[key]} leads nowhere`);
  for (const anchor of each(root, 'twoCellAnchor')) {
    const at = (end: string, what: string): number => Number(first(first(anchor, end), what)?.text);
    if (!(at('to', 'row') > at('from', 'row') && at('to', 'col') > at('from', 'col'))) pkg.say(part, 'a drawing has no size');
  }
  for (const { type, target } of related.values()) {
    const chart = type === 'chart' ? pkg.tree(target) : undefined;
    if (chart) pkg.say(target, ...chartFaults(chart, sheetNames));
  }
} // prettier-ignore

function chartFaults(chart: Node, sheetNames: Set<string>): string[] {
  const plot = first(first(chart, 'chart'), 'plotArea');
  const value = (node: Node | undefined, name: string): string => first(node, name)?.attributes['val'] ?? '';
  const axes = (plot?.children ?? []).filter((n) => localName(n).endsWith('Ax'));
  const known = new Set(axes.map((axis) => value(axis, 'axId')));
  const drawn = (plot?.children ?? []).filter((n) => localName(n).endsWith('Chart'));
  const series = drawn.flatMap((n) => each(n, 'ser'));
  const faults: string[] = [];
  for (const axis of axes) if (!known.has(value(axis, 'crossAx'))) faults.push('an axis crosses none');
  for (const id of drawn.flatMap((n) => each(n, 'axId'))) if (!known.has(id.attributes['val']!)) faults.push(`there is no axis ${id.attributes['val']}`);
  for (const key of ['idx', 'order'])
    if (new Set(series.map((s) => value(s, key))).size !== series.length) faults.push(`two series have one ${key}`);
  for (const node of walk(chart))
    if (localName(node) === 'f')
      faults.push(...formulaFaults(node.text, sheetNames).map((said) => `${node.text} ${said}`));
  if (series.length === 0) faults.push('the chart shows nothing');
  return faults;
} // prettier-ignore

/** Faults of a workbook's parts; none: an empty list. */
export function faultsIn(parts: Parts): string[] {
  const pkg = new Package(parts);
  const workbook = pkg.tree('/xl/workbook.xml');
  const styles = pkg.tree('/xl/styles.xml');
  if (!workbook || !styles) return [...pkg.faults, 'there is no workbook to read'];
  const shared = pkg.tree('/xl/sharedStrings.xml');
  const strings = each(shared, 'si').map((si) => [...walk(si)].map((n) => (n.name === 't' ? n.text : '')).join(''));
  if (shared && Number(shared.attributes['uniqueCount'] ?? strings.length) !== strings.length)
    pkg.say('/xl/sharedStrings.xml', `counts ${shared.attributes['uniqueCount']} texts and holds ${strings.length}`);
  pkg.say('/xl/styles.xml', ...styleFaults(styles));
  const sheets = each(first(workbook, 'sheets'), 'sheet').map((s) => s.attributes);
  const sheetNames = new Set(sheets.map((s) => s['name'] ?? ''));
  const book: Book = {
    strings,
    formats: first(styles, 'cellXfs')?.children.length ?? 0,
    conditionFormats: first(styles, 'dxfs')?.children.length ?? 0,
    sheetNames,
  };
  const of = pkg.related('/xl/workbook.xml');
  const tableNames: string[] = [];
  const tableIds: string[] = [];
  for (const { name, 'r:id': id } of sheets) {
    const part = of.get(id ?? '')?.target ?? '';
    const sheet = pkg.tree(part);
    if (!sheet) continue;
    const related = pkg.related(part);
    const ids = [...each(first(sheet, 'tableParts'), 'tablePart'), ...each(sheet, 'drawing')].map((n) => n.attributes['r:id'] ?? '');
    for (const each of ids) if (!related.has(each)) pkg.say(part, `${each} leads nowhere`);
    const targets = ids.map((each) => related.get(each)?.target ?? '');
    const tables = targets.flatMap((t) => { const tree = pkg.tree(t); return tree && localName(tree) === 'table' ? [tree] : []; });
    tableNames.push(...tables.map((t) => t.attributes['name'] ?? ''));
    tableIds.push(...tables.map((t) => t.attributes['id'] ?? ''));
    pkg.say(`${part} (${name})`, ...sheetFaults(sheet, tables, book));
    for (const target of targets) {
      const tree = pkg.tree(target);
      if (tree && localName(tree) === 'wsDr') drawingFaults(pkg, target, tree, sheetNames);
    }
  }
  if (new Set(tableIds).size !== tableIds.length) pkg.say('/xl/tables', 'two tables have one number');
  pkg.say('/xl/workbook.xml', ...bookFaults(pkg, workbook, tableNames));
  return pkg.faults;
} // prettier-ignore
