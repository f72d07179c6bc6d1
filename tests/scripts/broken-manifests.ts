/** Manifests with one fault each: what is changed in ours, the sentence it must bring, a text on the line it is on. */
export interface Broken {
  name: string;
  from: string | RegExp;
  to: string;
  sentence: string;
  /** on the line of the fault; found in the broken manifest, first occurrence */
  at: string;
}

const BASE = 'https://localhost:3000';
const letters = (count: number): string => 'm'.repeat(count);

const wellFormed: Broken[] = [
  {
    name: 'a tag that is not closed',
    from: '</Resources>',
    to: '',
    sentence:
      'The manifest is not well formed: </VersionOverrides> closes <Resources> of line 103.',
    at: '</VersionOverrides>',
  },
  {
    name: 'a bare "&"',
    from: 'The Soakbook authors',
    to: 'Soak & Book',
    sentence: 'The manifest is not well formed: "&" is no character of XML; write &amp; for "&".',
    at: 'Soak & Book',
  },
  {
    name: 'an attribute given twice',
    from: '<Host Name="Workbook"',
    to: '<Host Name="Workbook" Name="Workbook"',
    sentence: 'The manifest is not well formed: The attribute Name is given twice.',
    at: 'Name="Workbook" Name',
  },
  {
    name: 'a tag that cannot be read',
    from: '<Host Name="Workbook" />',
    to: '<Host Name=Workbook />',
    sentence:
      'The manifest is not well formed: What stands here cannot be read (unquoted attribute value).',
    at: 'Name=Workbook',
  },
];

const shape: Broken[] = [
  {
    name: 'elements out of order',
    from: /(<Hosts>\s*<Host Name[\s\S]*?<\/Hosts>)\s*(<Requirements>[\s\S]*?<\/Requirements>)/,
    to: '$2\n  $1',
    sentence:
      '<Hosts> stands too late in <OfficeApp>: Id, AlternateId, Version, ProviderName, DefaultLocale, DisplayName, Description, IconUrl, HighResolutionIconUrl, SupportUrl, AppDomains, Hosts, Requirements, DefaultSettings, Permissions, VersionOverrides.',
    at: '<Hosts>',
  },
  {
    name: 'form factors in front of the runtimes',
    from: /(<Runtimes>[\s\S]*?<\/Runtimes>)\s*(<AllFormFactors>[\s\S]*?<\/AllFormFactors>)/,
    to: '$2\n        $1',
    sentence: '<Runtimes> stands too late in <Host>: Runtimes, AllFormFactors, DesktopFormFactor.',
    at: '<Runtimes>',
  },
  {
    name: 'a button whose icon stands in front of its tip',
    from: /(<Supertip>[\s\S]*?<\/Supertip>)\s*(<Icon>[\s\S]*?<\/Icon>)/,
    to: '$2\n                  $1',
    sentence: '<Supertip> stands too late in <Control>: Label, Supertip, Icon, Action.',
    at: '<Supertip>',
  },
  {
    name: 'a missing element',
    from: /<Permissions>.*?<\/Permissions>/,
    to: '',
    sentence: '<OfficeApp> lacks <Permissions>.',
    at: '<OfficeApp',
  },
  {
    name: 'no support address',
    from: /<SupportUrl .*?>/,
    to: '',
    sentence: '<OfficeApp> lacks <SupportUrl>.',
    at: '<OfficeApp',
  },
  {
    name: 'two texts to get started with',
    from: '<Description resid="Start.Text" />',
    to: '<Description resid="Button.Tip" /><Description resid="Start.Text" />',
    sentence: '<Description> stands twice in <GetStarted>.',
    at: '<Description resid="Start.Text" />',
  },
  {
    name: 'an element nobody knows',
    from: '<Permissions>',
    to: '<Colour>green</Colour>\n  <Permissions>',
    sentence: '<Colour> may not stand in <OfficeApp>.',
    at: '<Colour>',
  },
  {
    name: 'an attribute that is missing',
    from: '<Host Name="Workbook" />',
    to: '<Host />',
    sentence: '<Host> lacks Name.',
    at: '<Host />',
  },
  {
    name: 'an attribute nobody knows',
    from: '<OfficeTab id="TabData">',
    to: '<OfficeTab id="TabData" colour="green">',
    sentence: '<OfficeTab> may not have the attribute colour.',
    at: 'colour=',
  },
  {
    name: 'a control of a kind that is not used here',
    from: 'xsi:type="Button"',
    to: 'xsi:type="Lever"',
    sentence: '<Control> cannot be of the type Lever.',
    at: 'xsi:type="Lever"',
  },
  {
    name: 'stray text',
    from: '<AppDomains>',
    to: '<AppDomains>here',
    sentence: '<AppDomains> holds stray text: "here".',
    at: '<AppDomains>here',
  },
  {
    name: 'a namespace that is not the schema’s',
    from: 'officeappbasictypes/1.0"',
    to: 'officeappbasictypes/2.0"',
    sentence: 'xmlns:bt must be http://schemas.microsoft.com/office/officeappbasictypes/1.0.',
    at: '<OfficeApp',
  },
  {
    name: 'overrides in the wrong namespace',
    from: '<VersionOverrides xmlns="http://schemas.microsoft.com/office/taskpaneappversionoverrides"',
    to: '<VersionOverrides xmlns="http://schemas.microsoft.com/office/mailappversionoverrides"',
    sentence:
      'xmlns of <VersionOverrides> must be http://schemas.microsoft.com/office/taskpaneappversionoverrides.',
    at: '<VersionOverrides xmlns',
  },
];

const values: Broken[] = [
  {
    name: 'an id that is no UUID',
    from: /<Id>.*?<\/Id>/,
    to: '<Id>soakbook</Id>',
    sentence: '<Id> must be a random UUID in small letters; it is "soakbook".',
    at: '<Id>',
  },
  {
    name: 'a permission the panel cannot work with',
    from: 'ReadWriteDocument',
    to: 'ReadDocument',
    sentence: '<Permissions> is "ReadDocument"; the panel needs ReadWriteDocument.',
    at: '<Permissions>',
  },
  {
    name: 'a default locale in short',
    from: '<DefaultLocale>en-US<',
    to: '<DefaultLocale>en<',
    sentence: '<DefaultLocale> is "en"; write it like en-US.',
    at: '<DefaultLocale>',
  },
  {
    name: 'a provider without a name',
    from: 'The Soakbook authors',
    to: '',
    sentence: '<ProviderName> is empty.',
    at: '<ProviderName>',
  },
  {
    name: 'a description that is too long',
    from: /<Description DefaultValue="[^"]*"/,
    to: `<Description DefaultValue="${letters(251)}"`,
    sentence: '<Description> is longer than 250 characters.',
    at: letters(251),
  },
  {
    name: 'a resource nobody declared',
    from: '<Label resid="Button.Label" />',
    to: '<Label resid="Button.Lable" />',
    sentence: '<Label> asks for resource Button.Lable, which is not declared.',
    at: 'Button.Lable',
  },
  {
    name: 'a resource declared twice',
    from: '<bt:String id="Group.Label" DefaultValue="Soakbook" />',
    to: '<bt:String id="Group.Label" DefaultValue="Soakbook" />\n<bt:String id="Group.Label" DefaultValue="Book" />',
    sentence: 'Resource Group.Label is declared twice.',
    at: 'DefaultValue="Book"',
  },
  {
    name: 'a resource asked for by another name',
    from: '<Title resid="Start.Title" />',
    to: '<Title resid="Group.Label" />',
    sentence: 'Resource Start.Title is declared and never used.',
    at: ' id="Start.Title"',
  },
  {
    name: 'a resource of the wrong kind',
    from: '<Title resid="Button.Label" />',
    to: '<Title resid="Start.Text" />',
    sentence: '<Title> needs one of bt:ShortStrings; Start.Text is one of bt:LongStrings.',
    at: '<Title resid="Start.Text" />',
  },
  {
    name: 'a resource id that is too long',
    from: /Start\.Text/g,
    to: 'Start.TextOfMoreThanThirtyTwoLetters',
    sentence: 'Resource id Start.TextOfMoreThanThirtyTwoLetters is longer than 32 characters.',
    at: ' id="Start.TextOf',
  },
  {
    name: 'a short text that is too long',
    from: 'DefaultValue="Plan watering"',
    to: `DefaultValue="${letters(126)}"`,
    sentence: 'Resource Button.Label is longer than 125 characters.',
    at: letters(126),
  },
  {
    name: 'a long text that is too long in another language',
    from: 'Value="Abre el panel que lee la hoja abierta y planifica su riego."',
    to: `Value="${letters(251)}"`,
    sentence: 'Resource Button.Tip is longer than 250 characters.',
    at: letters(251),
  },
  {
    name: 'a text that is empty',
    from: 'DefaultValue="Soakbook is ready"',
    to: 'DefaultValue=""',
    sentence: '<bt:String> lacks DefaultValue.',
    at: ' id="Start.Title"',
  },
  {
    name: 'a locale without its country',
    from: 'Locale="es-MX" Value="Soakbook está listo"',
    to: 'Locale="es" Value="Soakbook está listo"',
    sentence: 'The locale "es" must be written like es-MX.',
    at: 'Locale="es" ',
  },
  {
    name: 'a locale given twice',
    from: 'Locale="es-MX" Value="Planificar riego"',
    to: 'Locale="es-ES" Value="Planificar el riego"',
    sentence: 'The locale es-ES is given twice.',
    at: 'Planificar el riego',
  },
  {
    name: 'a locale that is the default',
    from: 'Locale="es-MX" Value="Planificar riego"',
    to: 'Locale="en-US" Value="Planificar riego"',
    sentence: 'The locale en-US is the default; put its text into DefaultValue.',
    at: 'Locale="en-US"',
  },
  {
    name: 'a requirement set nobody knows',
    from: '<Set Name="ExcelApi"',
    to: '<Set Name="ExcellApi"',
    sentence:
      'The requirement set "ExcellApi" is unknown; known are SharedRuntime, CustomFunctionsRuntime, ExcelApi, RibbonApi, DialogApi.',
    at: 'ExcellApi',
  },
  {
    name: 'a version of a requirement set that is none',
    from: '<bt:Set Name="ExcelApi" MinVersion="1.9"',
    to: '<bt:Set Name="ExcelApi" MinVersion="latest"',
    sentence: 'MinVersion of ExcelApi is "latest"; it must be two numbers, such as 1.9.',
    at: 'latest',
  },
  {
    name: 'no shared runtime asked for',
    from: '<Set Name="SharedRuntime" MinVersion="1.1" />',
    to: '',
    sentence: 'No <Set> asks for SharedRuntime.',
    at: '<OfficeApp',
  },
  {
    name: 'another host',
    from: '<Host Name="Workbook" />',
    to: '<Host Name="Document" />',
    sentence: '<Host> is "Document"; these functions are for Workbook only.',
    at: 'Name="Document"',
  },
  {
    name: 'a runtime that does not stay',
    from: 'lifetime="long"',
    to: 'lifetime="short"',
    sentence: 'The shared <Runtime> must have lifetime="long".',
    at: 'lifetime="short"',
  },
  {
    name: 'a second runtime',
    from: '<FunctionFile resid="Pane.Url" />',
    to: '<FunctionFile resid="Help.Url" />',
    sentence: '<FunctionFile> uses Help.Url and <Runtime> Pane.Url; one runtime needs one page.',
    at: '<FunctionFile',
  },
  {
    name: 'another namespace of the functions',
    from: 'DefaultValue="SOAK"',
    to: 'DefaultValue="SOAKS"',
    sentence: "The functions' namespace is SOAKS; it must be SOAK.",
    at: '<Namespace ',
  },
  {
    name: 'a namespace no file could hold',
    from: 'DefaultValue="SOAK"',
    to: 'DefaultValue="SOAK.BOOK"',
    sentence: 'The namespace "SOAK.BOOK" must be 3 to 20 capital letters and digits.',
    at: '<Namespace ',
  },
  {
    name: 'an id of the ribbon given twice',
    from: 'id="Soakbook.Open"',
    to: 'id="Soakbook.Group"',
    sentence: 'The id Soakbook.Group is given twice.',
    at: '<Control ',
  },
  {
    name: 'an icon without a size it needs',
    from: /<bt:Image size="80" resid="Icon.80" \/>/,
    to: '',
    sentence: '<Icon> lacks the size 80.',
    at: '<Icon>',
  },
];

const files: Broken[] = [
  {
    name: 'a page that is not built',
    from: `id="Help.Url" DefaultValue="${BASE}/help/index.html"`,
    to: `id="Help.Url" DefaultValue="${BASE}/help/start.html"`,
    sentence: `<bt:Url> points to ${BASE}/help/start.html, but there is no file help/start.html.`,
    at: 'help/start.html',
  },
  {
    name: 'a page elsewhere',
    from: `${BASE}/functions.js"`,
    to: 'https://elsewhere.example/functions.js"',
    sentence: `<bt:Url> points to https://elsewhere.example/functions.js, which is not under ${BASE}.`,
    at: 'elsewhere.example',
  },
  {
    name: 'an address without https',
    from: `DefaultValue="${BASE}/docs/troubleshooting.html"`,
    to: 'DefaultValue="http://localhost:3000/docs/troubleshooting.html"',
    sentence:
      '<SupportUrl> points to http://localhost:3000/docs/troubleshooting.html; it must be https.',
    at: '<SupportUrl',
  },
  {
    name: 'an address that is none',
    from: `id="Functions.Script" DefaultValue="${BASE}/functions.js"`,
    to: 'id="Functions.Script" DefaultValue="functions.js"',
    sentence: 'Resource Functions.Script must hold an https address.',
    at: ' id="Functions.Script"',
  },
  {
    name: 'a translated description that is not built',
    from: `Locale="es-MX" Value="${BASE}/functions-es.json"`,
    to: `Locale="es-MX" Value="${BASE}/functions-mx.json"`,
    sentence: `<bt:Override> points to ${BASE}/functions-mx.json, but there is no file functions-mx.json.`,
    at: 'functions-mx.json',
  },
  {
    name: 'a domain with a path',
    from: `<AppDomain>${BASE}<`,
    to: `<AppDomain>${BASE}/pane<`,
    sentence: `<AppDomain> is "${BASE}/pane"; it must be ${BASE}.`,
    at: '<AppDomain>',
  },
  {
    name: 'an icon of the wrong size',
    from: `<IconUrl DefaultValue="${BASE}/assets/icon-32.png"`,
    to: `<IconUrl DefaultValue="${BASE}/assets/icon-16.png"`,
    sentence: `${BASE}/assets/icon-16.png must be a PNG of 32 by 32 pixels.`,
    at: '<IconUrl',
  },
  {
    name: 'an icon that is no PNG',
    from: `<HighResolutionIconUrl DefaultValue="${BASE}/assets/icon-64.png"`,
    to: `<HighResolutionIconUrl DefaultValue="${BASE}/assets/mark.svg"`,
    sentence: `${BASE}/assets/mark.svg must be a PNG of 64 by 64 pixels.`,
    at: '<HighResolutionIconUrl',
  },
];

export const BROKEN: readonly Broken[] = [...wellFormed, ...shape, ...values, ...files];
