/**
 * The order of elements in the parts of a spreadsheet, by ECMA-376 Part 1 (transitional). The schema files themselves
 * are not here: these lists are written down again.
 *
 * Certainty: seen, as fragments of the schema quoted in public sources, for worksheet (to sortState), styleSheet,
 * lineChart and its ser; seen, as orders of the classes of openpyxl 3.0.9, for table, tableColumn, axes, plotArea,
 * chartSpace, chart, barChart, anchors, workbook, xf, dxf; from memory for the rest. No list is longer than what is
 * known: an element that is not in it is reported.
 */
import { localName, walk, type Node } from './parts.js';

/** Parent → children in their order; `+` after a name: any number of it; `!`: it must be there. */
const LISTS: Record<string, string> = {
  worksheet:
    'sheetPr dimension sheetViews sheetFormatPr cols+ sheetData! sheetCalcPr sheetProtection protectedRanges scenarios autoFilter sortState dataConsolidate customSheetViews mergeCells phoneticPr conditionalFormatting+ dataValidations hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks colBreaks customProperties cellWatches ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF picture oleObjects controls webPublishItems tableParts extLst',
  sheetPr: 'tabColor outlinePr pageSetUpPr',
  sheetView: 'pane selection+ pivotSelection+ extLst',
  row: 'c+ extLst',
  c: 'f v is extLst',
  dataValidation: 'formula1 formula2',
  cfRule: 'formula+ colorScale dataBar iconSet extLst',
  headerFooter: 'oddHeader oddFooter evenHeader evenFooter firstHeader firstFooter',
  workbook:
    'fileVersion fileSharing workbookPr workbookProtection bookViews sheets! functionGroups externalReferences definedNames calcPr oleSize customWorkbookViews pivotCaches smartTagPr smartTagTypes webPublishing fileRecoveryPr+ webPublishObjects extLst',
  styleSheet:
    'numFmts fonts fills borders cellStyleXfs cellXfs cellStyles dxfs tableStyles colors extLst',
  fill: 'patternFill gradientFill',
  patternFill: 'fgColor bgColor',
  border: 'start end left right top bottom diagonal vertical horizontal',
  xf: 'alignment protection extLst',
  dxf: 'font numFmt fill alignment border protection extLst',
  table: 'autoFilter sortState tableColumns! tableStyleInfo extLst',
  tableColumn: 'calculatedColumnFormula totalsRowFormula xmlColumnPr extLst',
  twoCellAnchor: 'from! to! sp grpSp graphicFrame cxnSp pic contentPart clientData!',
  oneCellAnchor: 'from! ext! sp grpSp graphicFrame cxnSp pic contentPart clientData!',
  graphicFrame: 'nvGraphicFramePr! xfrm! graphic! extLst',
  pic: 'nvPicPr! blipFill! spPr! style',
  from: 'col! colOff! row! rowOff!',
  to: 'col! colOff! row! rowOff!',
  chartSpace:
    'date1904 lang roundedCorners AlternateContent style clrMapOvr pivotSource protection chart! spPr txPr externalData printSettings userShapes extLst',
  title: 'tx layout overlay spPr txPr extLst',
  plotArea: 'layout lineChart+ barChart+ valAx+ catAx+ dateAx+ serAx+ dTable spPr extLst',
  legend: 'legendPos legendEntry+ layout overlay spPr txPr extLst',
  lineChart:
    'grouping! varyColors ser+ dLbls dropLines hiLowLines upDownBars marker smooth axId+ extLst',
  barChart: 'barDir! grouping varyColors ser+ dLbls gapWidth overlap serLines+ axId+ extLst',
  catAx:
    'axId! scaling! delete axPos! majorGridlines minorGridlines title numFmt majorTickMark minorTickMark tickLblPos spPr txPr crossAx! crosses crossesAt auto lblAlgn lblOffset tickLblSkip tickMarkSkip noMultiLvlLbl extLst',
  valAx:
    'axId! scaling! delete axPos! majorGridlines minorGridlines title numFmt majorTickMark minorTickMark tickLblPos spPr txPr crossAx! crosses crossesAt crossBetween majorUnit minorUnit dispUnits extLst',
};

/** `ser` and `chart` mean different things in different places. */
const IN_PLACE: Record<string, string> = {
  'lineChart/ser': 'idx! order! tx spPr marker dPt+ dLbls trendline+ errBars cat val smooth extLst',
  'barChart/ser':
    'idx! order! tx spPr invertIfNegative pictureOptions dPt+ dLbls trendline+ errBars cat val shape extLst',
  'chartSpace/chart':
    'title autoTitleDeleted pivotFmts view3D floor sideWall backWall plotArea! legend plotVisOnly dispBlanksAs showDLblsOverMax extLst',
};

/** Children that may come in any order, as a choice. */
const CHOICES: Record<string, string> = {
  font: 'b i strike condense extend outline shadow u vertAlign sz color name family charset scheme',
  Properties:
    'Template Manager Company Pages Words Characters PresentationFormat Lines Paragraphs Slides Notes TotalTime HiddenSlides MMClips ScaleCrop HeadingPairs TitlesOfParts LinksUpToDate CharactersWithSpaces SharedDoc HyperlinkBase HLinks HyperlinksChanged DigSig Application AppVersion DocSecurity',
  coreProperties:
    'category contentStatus created creator description identifier keywords language lastModifiedBy lastPrinted modified revision subject title version',
};

interface Order {
  names: string[];
  many: Set<string>;
  needed: string[];
}

const read = (list: string): Order => {
  const words = list.split(' ');
  const bare = (word: string): string => word.replace(/[+!]$/, '');
  return {
    names: words.map(bare),
    many: new Set(words.filter((w) => w.endsWith('+')).map(bare)),
    needed: words.filter((w) => w.endsWith('!')).map(bare),
  };
};
const ORDERS = new Map(Object.entries({ ...LISTS, ...IN_PLACE }).map(([k, v]) => [k, read(v)]));
const FREE = new Map(Object.entries(CHOICES).map(([k, v]) => [k, new Set(v.split(' '))]));
/** Charts and axes of a plot area may be mixed among their kind. */
const MIXED = new Set(['lineChart', 'barChart', 'valAx', 'catAx', 'dateAx', 'serAx']);

/** Elements of the tree that are unknown, missing, out of order or there twice, as sentences. */
export function orderFaults(root: Node): string[] {
  const faults: string[] = [];
  const look = (node: Node, parent: string): void => {
    const name = localName(node);
    const choice = FREE.get(name);
    const order = ORDERS.get(`${parent}/${name}`) ?? ORDERS.get(name);
    const children = node.children.map(localName);
    // a title of the document and one of a chart share a name; text has no children
    if (choice)
      for (const child of children)
        if (!choice.has(child)) faults.push(`<${child}> has no place in <${name}>`);
    if (order && !choice && !(name === 'chart' && parent !== 'chartSpace')) {
      let last = -1;
      const seen = new Set<string>();
      for (const child of children) {
        const at = order.names.indexOf(child);
        if (at < 0) faults.push(`<${child}> has no place in <${name}>`);
        else if (at < last && !(MIXED.has(child) && MIXED.has(order.names[last]!)))
          faults.push(`<${child}> stands after <${order.names[last]}> in <${name}>`);
        else last = at;
        if (seen.has(child) && !order.many.has(child))
          faults.push(`<${child}> stands twice in <${name}>`);
        seen.add(child);
      }
      for (const needed of order.needed)
        if (!seen.has(needed)) faults.push(`<${name}> has no <${needed}>`);
    }
    for (const child of node.children) look(child, name);
  };
  look(root, '');
  return faults;
}

/** Elements with a `count` whose children are counted otherwise, as sentences. */
export function countFaults(root: Node): string[] {
  const faults: string[] = [];
  for (const node of walk(root)) {
    const { count } = node.attributes;
    const name = localName(node);
    if (count === undefined || name === 'sst') continue;
    if (Number(count) !== node.children.length)
      faults.push(`<${name}> counts ${count} and holds ${node.children.length}`);
  }
  return faults;
}
