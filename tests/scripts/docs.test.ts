/** Pages of docs/ show what their Markdown says, and never let it become something else. */
import { describe, expect, it } from 'vitest';
import { fromMarkdown } from '../../scripts/build-docs-markdown.js';
import { Problem } from '../../src/engine/problems.js';

const body = (text: string): string => fromMarkdown(`# T\n\n${text}`).body.text;

describe('HTML in a page', () => {
  it('stays text: in code, after a backslash, between signs that are no tag', () => {
    expect(body('`<b>`')).toBe('<p><code>&lt;b&gt;</code></p>');
    expect(body('```html\n<script>x</script>\n```')).toBe(
      '<pre><code>&lt;script&gt;x&lt;/script&gt;</code></pre>',
    );
    expect(body('\\<b\\>')).toBe('<p>&lt;b&gt;</p>');
    expect(body('a < b & "c" > d')).toBe('<p>a &lt; b &amp; &quot;c&quot; &gt; d</p>');
    expect(body('## `<b>` x')).toBe('<h2 id="b-x"><code>&lt;b&gt;</code> x</h2>');
    expect(fromMarkdown('# a < b').title).toBe('a < b');
  });

  it.each([
    ['in a line', 'a <b onclick="x">b</b>'],
    ['as a block', '<div>\nx\n</div>'],
    ['as a script', '<script>alert(1)</script>'],
    ['as a comment', '<!-- hidden -->'],
    ['in an item', '- <i>a</i>'],
    ['in a cell', '| a |\n|---|\n| <i>b</i> |'],
    ['in a link', '[<i>a</i>](b.md)'],
    ['in a heading', '## <i>a</i>'],
  ])('is refused %s, and the sentence says what to write', (_where, text) => {
    expect(() => body(text)).toThrow('HTML that is to be seen stands in backquotes');
  });
});

describe('a link', () => {
  it.each([
    ['web.md', 'web.html'],
    ['web.md#check', 'web.html#check'],
    ['#check', '#check'],
    ['../help/index.html', '../help/index.html'],
    ['manifest.xml', 'manifest.xml'],
    ['https://example.com/a.md?b=1&c', 'https://example.com/a.md?b=1&amp;c'],
  ])('to %s leads to %s', (target, href) => {
    expect(body(`[a](${target})`)).toBe(`<p><a href="${href}">a</a></p>`);
  });

  it.each([
    '[a](javascript:alert)',
    '[a](JavaScript:alert)',
    '[a](<java script:alert>)',
    '[a](java&#x73;cript:alert)',
    '<javascript:alert>',
    '**[a](javascript:alert)**',
    '[a](data:text/html,x)',
    '[a](http://example.com)',
    '[a](//example.com)',
    '[a](/etc)',
    '[a](mailto:a@example.com)',
    'www.example.com',
    '[a]()',
  ])('like %j is refused', (text) => {
    expect(() => body(text)).toThrow('accepted are files of these pages');
  });

  it('whose target stands elsewhere is refused too', () => {
    expect(() => body('[a][x]\n\n[x]: javascript:alert')).toThrow('accepted are files');
    expect(() => body('[x]: web.md')).toThrow('a link has its target beside its words');
  });
});

describe('a table', () => {
  it('counts the cells of a row as the reader of its head does', () => {
    expect(body('| a | b |\n|---|---|\n| `c\\|d` | e |')).toContain(
      '<tr><td><code>c|d</code></td><td>e</td></tr>',
    );
    expect(body('| a | b |\n|---|---|\n| | e |')).toContain('<tr><td></td><td>e</td></tr>');
  });

  it.each([
    ['| 1 |', 'a cell too few'],
    ['| 1 | 2 | 3 |', 'a cell too many'],
    ['| 1 | `2|3` |', 'a bar that parts a cell'],
    ['words right below', 'no row'],
  ])('with the row %j is refused: %s', (row) => {
    expect(() => body(`| a | b |\n|---|---|\n| x | y |\n${row}`)).toThrow(
      `has another number of cells: "${row}"`,
    );
  });

  it('whose rule is shorter than its head is refused', () => {
    expect(() => body('| a | b |\n|---|\n| 1 | 2 |')).toThrow('lacks its rule of dashes');
    expect(() => body('words\n| a | b |\n| 1 | 2 |')).toThrow('lacks its rule of dashes');
  });
});

describe('a list', () => {
  it('goes on with its numbers after something else', () => {
    expect(body('1. a\n\n```\nb\n```\n\n2. c')).toBe(
      '<ol><li>a</li></ol><pre><code>b</code></pre><ol start="2"><li>c</li></ol>',
    );
  });

  it('may have blank lines between its items', () => {
    expect(body('- a\n\n- b')).toBe('<ul><li>a</li><li>b</li></ul>');
  });
});

describe('what these pages do not know', () => {
  it.each([
    ['![a](pictures/desk.png)', 'the pages carry no pictures'],
    ['![a](https://example.com/a.png)', 'the pages carry no pictures'],
    ['~~a~~', '(del)'],
    ['a\n\n---', '(hr)'],
    ['a  \nb', '(br)'],
    ['# Second title', 'must be of level 2 or 3'],
    ['Underlined\n---', 'a heading begins with ## or ###'],
    ['##Heading', 'a blank follows its marks'],
    ['##', 'has no words'],
    ['    set in', 'code stands between lines of ```'],
    ['````\na\n```', 'is not closed'],
    ['- a\n  - b', 'holds more than one run of words (list: "- b")'],
    ['- a\n\n  b', 'holds more than one run of words (text: "b")'],
    ['- ## a', 'holds more than one run of words (heading'],
    ['- [ ] a', 'has a box to tick'],
    ['- a\n-', 'is empty'],
    ['| a |\n|:-:|\n| b |', 'has colons'],
    ['[a](web.md "b")', 'has a title'],
    ['a &lt; b', 'write the sign itself'],
    ['**a', 'leaves a backquote, ** or a link open'],
    ['`a', 'leaves a backquote, ** or a link open'],
    ['[a](web md)', 'leaves a backquote, ** or a link open'],
  ])('%j is refused with a sentence', (text, sentence) => {
    expect(() => body(text)).toThrow(Problem);
    expect(() => body(text)).toThrow(sentence);
  });

  it.each(['', 'words', '## a', 'a\n===', '#'])(
    'a page that begins with %j has no title',
    (text) => {
      expect(() => fromMarkdown(text)).toThrow('A page must begin with its title');
    },
  );

  it('a title is words alone', () => {
    expect(() => fromMarkdown('# a `b`')).toThrow('must be words alone: "`b`"');
  });

  it('is told with the file it stands in', () => {
    expect(() => fromMarkdown('# T\n\n> a', 'docs/web.md')).toThrow(/^docs\/web\.md: "> a" is no/);
  });
});
