/**
 * What may stand where in a task pane manifest: the part of the published schema our manifests use.
 *
 * Orders and limits were read in the schema files of the host's public documentation (OfficeAppManifestV1_1,
 * TaskPaneAppVersionOverridesV1_0, OfficeAppBasicTypesV1_0): seen. Runtimes in front of the form factors, and the
 * names of requirement sets, are from memory.
 */
import { walk } from './check-manifest-xml.mjs';

/** Children in their order; "?" may lack, "+" one or more, "*" any number. Attributes; "?" may lack. */
const element = (children, attributes = '') => ({
  children: children.split(' ').filter(Boolean).map(occurrence),
  attributes: attributes.split(' ').filter(Boolean).map(occurrence),
});
const occurrence = (word) => {
  const mark = /[?+*]$/.exec(word)?.[0] ?? '';
  return {
    name: mark === '' ? word : word.slice(0, -1),
    least: mark === '?' || mark === '*' ? 0 : 1,
    most: mark === '+' || mark === '*' ? Infinity : 1,
  };
};

const LOCALISED = element('Override*', 'DefaultValue');
const RESOURCE = element('bt:Override*', 'id DefaultValue');
const RESID = element('', 'resid');
const TEXT = element('');
const SOURCE = element('SourceLocation');

/** By "parent/name", by "name:type", else by name. */
const SCHEMA = {
  OfficeApp: element(
    'Id AlternateId? Version ProviderName DefaultLocale DisplayName Description IconUrl HighResolutionIconUrl ' +
      'SupportUrl AppDomains Hosts Requirements DefaultSettings Permissions VersionOverrides',
    'xmlns xmlns:xsi xmlns:bt xmlns:ov? xsi:type',
  ),
  Id: TEXT,
  AlternateId: TEXT,
  Version: TEXT,
  ProviderName: TEXT,
  DefaultLocale: TEXT,
  Permissions: TEXT,
  AppDomain: TEXT,
  TaskpaneId: TEXT,
  DisplayName: LOCALISED,
  'OfficeApp/Description': LOCALISED,
  IconUrl: LOCALISED,
  HighResolutionIconUrl: LOCALISED,
  SupportUrl: LOCALISED,
  'DefaultSettings/SourceLocation': LOCALISED,
  Override: element('', 'Locale Value'),
  'bt:Override': element('', 'Locale Value'),
  AppDomains: element('AppDomain+'),
  DefaultSettings: SOURCE,
  'OfficeApp/Hosts': element('Host+'),
  Host: element('', 'Name'),
  'OfficeApp/Requirements': element('Sets'),
  Sets: element('Set+', 'DefaultMinVersion?'),
  Set: element('', 'Name MinVersion?'),
  VersionOverrides: element('Description? Requirements Hosts Resources', 'xmlns xsi:type'),
  'VersionOverrides/Requirements': element('bt:Sets'),
  'bt:Sets': element('bt:Set+', 'DefaultMinVersion?'),
  'bt:Set': element('', 'Name MinVersion?'),
  'VersionOverrides/Hosts': element('Host+'),
  'Host:Workbook': element('Runtimes AllFormFactors DesktopFormFactor', 'xsi:type'),
  Runtimes: element('Runtime+'),
  Runtime: element('', 'resid lifetime?'),
  AllFormFactors: element('ExtensionPoint'),
  'ExtensionPoint:CustomFunctions': element('Script Page Metadata Namespace', 'xsi:type'),
  Script: SOURCE,
  Page: SOURCE,
  Metadata: SOURCE,
  Namespace: RESID,
  SourceLocation: RESID,
  DesktopFormFactor: element('GetStarted FunctionFile ExtensionPoint+'),
  GetStarted: element('Title Description LearnMoreUrl'),
  Title: RESID,
  Description: RESID,
  LearnMoreUrl: RESID,
  FunctionFile: RESID,
  'ExtensionPoint:PrimaryCommandSurface': element('OfficeTab+', 'xsi:type'),
  OfficeTab: element('Group+', 'id'),
  Group: element('Label Icon Control+', 'id'),
  Label: RESID,
  Icon: element('bt:Image+'),
  'Icon/bt:Image': element('', 'size resid'),
  'Control:Button': element('Label Supertip Icon Action', 'xsi:type id'),
  Supertip: element('Title Description'),
  'Action:ShowTaskpane': element('TaskpaneId? SourceLocation Title?', 'xsi:type'),
  Resources: element('bt:Images bt:Urls bt:ShortStrings bt:LongStrings'),
  'bt:Images': element('bt:Image+'),
  'bt:Urls': element('bt:Url+'),
  'bt:ShortStrings': element('bt:String+'),
  'bt:LongStrings': element('bt:String+'),
  'bt:Image': RESOURCE,
  'bt:Url': RESOURCE,
  'bt:String': RESOURCE,
};

const NAMESPACES = {
  xmlns: 'http://schemas.microsoft.com/office/appforoffice/1.1',
  'xmlns:xsi': 'http://www.w3.org/2001/XMLSchema-instance',
  'xmlns:bt': 'http://schemas.microsoft.com/office/officeappbasictypes/1.0',
};
const OVERRIDES_NAMESPACE = 'http://schemas.microsoft.com/office/taskpaneappversionoverrides';

function specOf({ name, attributes }, parent) {
  const type = attributes['xsi:type'];
  return SCHEMA[`${parent}/${name}`] ?? SCHEMA[`${name}:${type}`] ?? SCHEMA[name];
}

function* childFaults({ name: parent, line, children }, spec) {
  const order = spec.children.map(({ name }) => name);
  let last = 0;
  for (const child of children) {
    const place = order.indexOf(child.name);
    if (place === -1) yield [child.line, `<${child.name}> may not stand in <${parent}>.`];
    else if (place < last)
      yield [child.line, `<${child.name}> stands too late in <${parent}>: ${order.join(', ')}.`];
    else last = place;
  }
  for (const { name, least, most } of spec.children) {
    const found = children.filter((child) => child.name === name);
    if (found.length < least) yield [line, `<${parent}> lacks <${name}>.`];
    if (found.length > most) yield [found[1].line, `<${name}> stands twice in <${parent}>.`];
  }
}

function* attributeFaults({ name, line, attributes }, spec) {
  for (const attribute of spec.attributes)
    if (attribute.least > 0 && (attributes[attribute.name] ?? '') === '')
      yield [line, `<${name}> lacks ${attribute.name}.`];
  for (const key of Object.keys(attributes))
    if (!spec.attributes.some((attribute) => attribute.name === key))
      yield [line, `<${name}> may not have the attribute ${key}.`];
}

function* elementFaults(element, parent) {
  const spec = specOf(element, parent);
  if (spec === undefined) {
    const type = element.attributes['xsi:type'];
    if (type !== undefined)
      yield [element.line, `<${element.name}> cannot be of the type ${type}.`];
    return;
  }
  yield* attributeFaults(element, spec);
  yield* childFaults(element, spec);
  if (element.children.length > 0 && element.text.trim() !== '')
    yield [element.line, `<${element.name}> holds stray text: "${element.text.trim()}".`];
  for (const child of element.children) yield* elementFaults(child, element.name);
}

function* namespaceFaults(root) {
  for (const [key, wanted] of Object.entries(NAMESPACES))
    if (root.attributes[key] !== undefined && root.attributes[key] !== wanted)
      yield [root.line, `${key} must be ${wanted}.`];
  if (root.attributes['xsi:type'] !== 'TaskPaneApp')
    yield [root.line, 'xsi:type of <OfficeApp> must be TaskPaneApp.'];
  for (const { name, line, attributes } of walk(root)) {
    if (name !== 'VersionOverrides') continue;
    if (attributes.xmlns !== OVERRIDES_NAMESPACE)
      yield [line, `xmlns of <VersionOverrides> must be ${OVERRIDES_NAMESPACE}.`];
    if (attributes['xsi:type'] !== 'VersionOverridesV1_0')
      yield [line, 'xsi:type of <VersionOverrides> must be VersionOverridesV1_0.'];
  }
}

/** Faults of order, number, attributes and namespaces, as [line, sentence]. */
export function* schemaFaults(root) {
  if (root.name !== 'OfficeApp') {
    yield [root.line, `The outermost element is <${root.name}>; it must be <OfficeApp>.`];
    return;
  }
  yield* namespaceFaults(root);
  yield* elementFaults(root, '');
}
