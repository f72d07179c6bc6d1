import js from '@eslint/js';
import tseslint from 'typescript-eslint';
import officeAddins from 'eslint-plugin-office-addins';

const NODE_GLOBALS = ['process', 'console', 'Buffer', 'URL', 'setTimeout', 'clearTimeout', 'fetch'];

/** Arrows point one way: cli, desk → taskpane → workers → workbook, functions → tables → engine. */
const mayNotImport = (files, folders, message, ...more) => ({
  files,
  rules: {
    'no-restricted-imports': [
      'error',
      { patterns: [{ group: folders.map((f) => `**/${f}/**`), message }, ...more] },
    ],
  },
});

export default tseslint.config(
  { ignores: ['dist', 'node_modules', 'out', 'coverage', 'src/generated'] },
  js.configs.recommended,
  ...tseslint.configs.recommended,
  {
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_' },
      ],
      eqeqeq: 'error',
    },
  },
  {
    files: ['src/taskpane/**', 'src/functions/**'],
    plugins: { 'office-addins': officeAddins },
    rules: Object.fromEntries(
      Object.keys(officeAddins.rules).map((rule) => [`office-addins/${rule}`, 'error']),
    ),
  },
  // custom function wrappers take ranges as any[][]: the metadata tool knows no narrower type
  { files: ['src/functions/**'], rules: { '@typescript-eslint/no-explicit-any': 'off' } },
  {
    files: ['scripts/**', '*.js', '.ci/**', 'src/cli/**', 'src/workers/node-*', 'tests/**'],
    languageOptions: {
      globals: Object.fromEntries(NODE_GLOBALS.map((name) => [name, 'readonly'])),
    },
  },
  {
    files: ['src/engine/**'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            { group: ['node:*', 'fs', 'path'], message: 'the engine has no files and no host' },
            {
              group: [
                'functions',
                'workbook',
                'tables',
                'workers',
                'help',
                'taskpane',
                'desk',
                'cli',
              ].map((f) => `**/${f}/**`),
              message: 'the engine imports nothing above it',
            },
          ],
        },
      ],
      'no-restricted-globals': [
        'error',
        'window',
        'document',
        'Office',
        'Excel',
        'process',
        'fetch',
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'the engine has no clock' },
        { object: 'Math', property: 'random', message: 'the engine has no randomness' },
      ],
    },
  },
  mayNotImport(
    ['src/workers/**'],
    ['help', 'taskpane', 'desk', 'cli'],
    'workers read, plan and write; they know no page',
  ),
  mayNotImport(
    ['src/tables/**'],
    ['functions', 'workbook', 'workers', 'help', 'taskpane', 'desk', 'cli'],
    'tables read cells for everybody above',
  ),
  mayNotImport(
    ['src/functions/**'],
    ['workbook', 'workers', 'help', 'taskpane', 'desk', 'cli'],
    'functions call tables and engine only',
  ),
  mayNotImport(
    ['src/sheets/**'],
    ['workbook', 'workers', 'help', 'taskpane', 'desk', 'cli'],
    'the script of the other spreadsheet program holds functions only',
  ),
  mayNotImport(
    ['src/workbook/**'],
    ['workers', 'help', 'taskpane', 'desk', 'cli'],
    'the workbook knows no way in',
  ),
  mayNotImport(
    ['src/taskpane/**'],
    ['help', 'desk', 'cli'],
    'the panel knows a Host, not the desk',
    {
      group: ['**/rules/rule-parse.js', '**/rules/rule-table.js', '**/workbook/rules-reading.js'],
      allowTypeImports: true,
      message: 'the rules are read in the plan room: the panel stays small',
    },
  ),
);
