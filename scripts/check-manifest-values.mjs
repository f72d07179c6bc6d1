/** What the values of a manifest must be: ids, versions, locales, resources, requirement sets, one runtime. */
import { walk } from './check-manifest-xml.mjs';

/** Longest texts, seen in the schema [characters]. */
const LONGEST = {
  resid: 32,
  'bt:ShortStrings': 125,
  'bt:LongStrings': 250,
  'bt:Urls': 2048,
  'bt:Images': 2048,
  DisplayName: 125,
  Description: 250,
  ProviderName: 125,
};
const RESOURCE_GROUPS = ['bt:Images', 'bt:Urls', 'bt:ShortStrings', 'bt:LongStrings'];
/** The group an element takes its resource from. */
const GROUP_OF = {
  Title: 'bt:ShortStrings',
  Label: 'bt:ShortStrings',
  Namespace: 'bt:ShortStrings',
  Description: 'bt:LongStrings',
  'bt:Image': 'bt:Images',
  SourceLocation: 'bt:Urls',
  LearnMoreUrl: 'bt:Urls',
  FunctionFile: 'bt:Urls',
  Runtime: 'bt:Urls',
};
/** Sizes a ribbon icon needs, and those it may have besides; seen in the schema [px]. */
const ICONS = { needed: [16, 32, 80], also: [20, 24, 40, 48, 64] };
const KNOWN_SETS = [
  'SharedRuntime',
  'CustomFunctionsRuntime',
  'ExcelApi',
  'RibbonApi',
  'DialogApi',
];
const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const LOCALE = /^[a-z]{2,3}-[A-Z]{2}$/;
/** A letter first, then letters and digits: a saved file writes the namespace and the name with "_" between them. */
export const NAMESPACE_FORM = /^[A-Z][A-Z0-9]{2,19}$/;

const textOf = ({ text }) => text.trim();
const all = (root, name) => [...walk(root)].filter((element) => element.name === name);

function* headFaults(root, { version }) {
  for (const element of root.children) {
    const { name, line, attributes } = element;
    const text = textOf(element);
    const value = attributes.DefaultValue ?? text;
    if (name === 'Id' && !UUID.test(text))
      yield [line, `<Id> must be a random UUID in small letters; it is "${text}".`];
    if (name === 'Version' && text !== `${version}.0`)
      yield [line, `<Version> is ${text}; package.json makes it ${version}.0.`];
    if (name === 'Permissions' && text !== 'ReadWriteDocument')
      yield [line, `<Permissions> is "${text}"; the panel needs ReadWriteDocument.`];
    if (name === 'DefaultLocale' && !LOCALE.test(text))
      yield [line, `<DefaultLocale> is "${text}"; write it like en-US.`];
    if (LONGEST[name] !== undefined && value.length > LONGEST[name])
      yield [line, `<${name}> is longer than ${LONGEST[name]} characters.`];
    if (['ProviderName', 'DisplayName'].includes(name) && value === '')
      yield [line, `<${name}> is empty.`];
  }
}

/** The resources by id, and what is wrong with them. */
function readResources(root) {
  const faults = [];
  const resources = new Map();
  for (const group of walk(root)) {
    if (!RESOURCE_GROUPS.includes(group.name)) continue;
    for (const { attributes, children, line } of group.children) {
      const { id = '', DefaultValue: value = '' } = attributes;
      if (resources.has(id)) faults.push([line, `Resource ${id} is declared twice.`]);
      resources.set(id, { value, group: group.name, line });
      if (id.length > LONGEST.resid)
        faults.push([line, `Resource id ${id} is longer than ${LONGEST.resid} characters.`]);
      for (const [text, at] of [
        [value, line],
        ...children.map((child) => [child.attributes.Value ?? '', child.line]),
      ])
        if (text.length > LONGEST[group.name])
          faults.push([at, `Resource ${id} is longer than ${LONGEST[group.name]} characters.`]);
    }
  }
  return { faults, resources };
}

function* useFaults(root, resources) {
  const used = new Set();
  for (const { name, attributes, line } of walk(root)) {
    const { resid } = attributes;
    if (resid === undefined) continue;
    used.add(resid);
    const resource = resources.get(resid);
    if (resource === undefined)
      yield [line, `<${name}> asks for resource ${resid}, which is not declared.`];
    else if (GROUP_OF[name] !== undefined && resource.group !== GROUP_OF[name])
      yield [
        line,
        `<${name}> needs one of ${GROUP_OF[name]}; ${resid} is one of ${resource.group}.`,
      ];
  }
  for (const [id, { line }] of resources)
    if (!used.has(id)) yield [line, `Resource ${id} is declared and never used.`];
}

function* localeFaults(root) {
  const standard = root.children.find(({ name }) => name === 'DefaultLocale');
  const own = standard === undefined ? '' : textOf(standard).toLowerCase();
  for (const parent of walk(root)) {
    const seen = new Set();
    for (const { name, attributes, line } of parent.children) {
      if (name !== 'Override' && name !== 'bt:Override') continue;
      const locale = attributes.Locale ?? '';
      if (!LOCALE.test(locale)) yield [line, `The locale "${locale}" must be written like es-MX.`];
      if (locale.toLowerCase() === own)
        yield [line, `The locale ${locale} is the default; put its text into DefaultValue.`];
      if (seen.has(locale)) yield [line, `The locale ${locale} is given twice.`];
      seen.add(locale);
    }
  }
}

function* setFaults(root) {
  const named = [...all(root, 'Set'), ...all(root, 'bt:Set')];
  for (const { attributes, line } of named) {
    const { Name: name = '', MinVersion: least = '1.1' } = attributes;
    if (!KNOWN_SETS.includes(name))
      yield [line, `The requirement set "${name}" is unknown; known are ${KNOWN_SETS.join(', ')}.`];
    if (!/^\d{1,5}\.\d{1,5}$/.test(least))
      yield [line, `MinVersion of ${name} is "${least}"; it must be two numbers, such as 1.9.`];
  }
  for (const [element, set] of [
    ['Set', 'SharedRuntime'],
    ['bt:Set', 'CustomFunctionsRuntime'],
  ])
    if (!all(root, element).some(({ attributes }) => attributes.Name === set))
      yield [root.line, `No <${element}> asks for ${set}.`];
}

function* hostFaults(root) {
  const hosts = root.children.find(({ name }) => name === 'Hosts')?.children ?? [];
  for (const { attributes, line } of hosts)
    if (attributes.Name !== undefined && attributes.Name !== 'Workbook')
      yield [line, `<Host> is "${attributes.Name}"; these functions are for Workbook only.`];
}

/** Functions, pane and commands live in one runtime that stays, or they could not share what they know. */
function* runtimeFaults(root) {
  const [runtime] = all(root, 'Runtime');
  if (runtime === undefined) return;
  if (runtime.attributes.lifetime !== 'long')
    yield [runtime.line, 'The shared <Runtime> must have lifetime="long".'];
  const [page] = all(root, 'Page');
  const sharing = [
    ['FunctionFile', all(root, 'FunctionFile')[0]],
    ['Page', page?.children[0]],
    ...all(root, 'Action').map((action) => [
      'Action',
      action.children.find(({ name }) => name === 'SourceLocation'),
    ]),
  ];
  for (const [name, element] of sharing)
    if (element !== undefined && element.attributes.resid !== runtime.attributes.resid)
      yield [
        element.line,
        `<${name}> uses ${element.attributes.resid} and <Runtime> ${runtime.attributes.resid}; one runtime needs one page.`,
      ];
}

function* namespaceFaults(root, resources, { namespace }) {
  for (const { attributes, line } of all(root, 'Namespace')) {
    const { value = 'missing' } = resources.get(attributes.resid) ?? {};
    if (!NAMESPACE_FORM.test(value))
      yield [line, `The namespace "${value}" must be 3 to 20 capital letters and digits.`];
    else if (value !== namespace)
      yield [line, `The functions' namespace is ${value}; it must be ${namespace}.`];
  }
}

function* ribbonFaults(root) {
  const ids = new Set();
  for (const { name, attributes, line } of walk(root)) {
    if (name !== 'Group' && name !== 'Control') continue;
    if (ids.has(attributes.id)) yield [line, `The id ${attributes.id} is given twice.`];
    ids.add(attributes.id);
  }
  for (const { children, line } of all(root, 'Icon')) {
    const sizes = children.map(({ attributes }) => Number(attributes.size));
    for (const size of ICONS.needed)
      if (!sizes.includes(size)) yield [line, `<Icon> lacks the size ${size}.`];
    for (const [i, size] of sizes.entries()) {
      if (![...ICONS.needed, ...ICONS.also].includes(size))
        yield [children[i].line, `The icon size ${children[i].attributes.size} is not supported.`];
      if (sizes.indexOf(size) !== i)
        yield [children[i].line, `<Icon> gives the size ${size} twice.`];
    }
  }
}

/** Faults of values, as [line, sentence], and the resources for those who look at files. */
export function valueFaults(root, project) {
  const { faults, resources } = readResources(root);
  return {
    resources,
    faults: [
      ...headFaults(root, project),
      ...faults,
      ...useFaults(root, resources),
      ...localeFaults(root),
      ...setFaults(root),
      ...hostFaults(root),
      ...runtimeFaults(root),
      ...namespaceFaults(root, resources, project),
      ...ribbonFaults(root),
    ],
  };
}
