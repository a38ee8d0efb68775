import next from '@next/eslint-plugin-next'
import a11y from 'eslint-plugin-jsx-a11y'
import hooks from 'eslint-plugin-react-hooks'
import tseslint from 'typescript-eslint'

/** Refuses the imports that the pattern matches in these files. Use a regex: a group is read like a .gitignore. */
const only = (files, regex, message, ignores = []) => ({
  files,
  ignores,
  rules: {
    'no-restricted-imports': ['error', { patterns: [{ regex, message }] }],
  },
})

const restrictedEverywhere = [
  {
    selector: 'ExportAllDeclaration',
    message: 'Import from the file that has it; no re-exports.',
  },
]

export default tseslint.config(
  {
    ignores: [
      '.next/',
      'data/',
      'pictures/',
      'lib/services/database/generated/',
      'next-env.d.ts',
      'test-results/',
      // Served as it stands, and no part of the typed program.
      'public/',
    ],
  },
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: {
      parserOptions: {
        projectService: true,
        tsconfigRootDir: import.meta.dirname,
      },
    },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true },
      ],
      '@typescript-eslint/consistent-type-definitions': 'off',
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      'no-restricted-syntax': ['error', ...restrictedEverywhere],
      eqeqeq: 'error',
    },
  },
  { files: ['**/*.mjs'], ...tseslint.configs.disableTypeChecked },
  {
    files: ['app/**/*.tsx', 'app/**/*.ts'],
    plugins: { '@next/next': next, 'react-hooks': hooks, 'jsx-a11y': a11y },
    rules: {
      ...next.configs.recommended.rules,
      ...next.configs['core-web-vitals'].rules,
      ...hooks.configs.recommended.rules,
      ...a11y.flatConfigs.strict.rules,
      // The text of a label may stand beside its picture, a level deeper.
      'jsx-a11y/label-has-associated-control': [
        'error',
        { depth: 3, controlComponents: ['PhotoInput'] },
      ],
      // Photos are renditions of our own; the optimizer is switched off.
      '@next/next/no-img-element': 'off',
    },
  },
  only(['lib/core/**'], '^(?!#core/)', 'lib/core imports only lib/core.', [
    'lib/core/time/zone.ts',
  ]),
  only(
    ['lib/core/time/zone.ts'],
    '^(?!#core/|temporal-polyfill$)',
    'Only time zones need a library.',
  ),
  only(
    ['lib/services/database/**'],
    '^(next|react|react-dom)(/|$)|/(app|commands)/',
    'Services know no framework.',
  ),
  only(
    ['lib/services/**'],
    '^(next|react|react-dom)(/|$)|/(app|commands)/|^#prisma-client$',
    'Only lib/services/database imports the Prisma client; services know no framework.',
    ['lib/services/database/**'],
  ),
  {
    files: ['lib/services/**'],
    rules: {
      'no-restricted-syntax': [
        'error',
        ...restrictedEverywhere,
        {
          selector:
            'CallExpression[callee.object.object.name="db"][callee.property.name=/^(create|update|upsert|delete)/]',
          message:
            'Write inside db.$transaction: a plain write is not tried again where its connection was opened on a disk that could only be read.',
        },
      ],
    },
  },
  only(
    ['lib/commands/**'],
    '^(next|react|react-dom)(/|$)|/app/',
    'Commands are as thin as a route and import no page.',
  ),
  only(
    ['app/**'],
    '^#prisma-client$|^#services/database/(open-database|migrate)$',
    'Pages and routes ask a service; only services reach the database.',
  ),
  only(
    ['app/**/*.client.tsx', 'app/_queue/**', 'app/snap/snap-*.ts'],
    '^(#services/|#prisma-client$|#core/time/zone$|zod|node:)',
    'Client components get plain values.',
  ),
  {
    files: ['tests/**'],
    ignores: ['tests/support/until.ts'],
    rules: {
      'no-restricted-properties': [
        'error',
        {
          object: 'vi',
          property: 'waitFor',
          message:
            'Wait with `until`: the second that it waits by itself is too short on a busy machine.',
        },
      ],
    },
  },
  {
    files: ['lib/core/**'],
    rules: {
      'no-restricted-globals': [
        'error',
        'Date',
        'performance',
        'process',
        'fetch',
        'crypto',
        'setTimeout',
        'Buffer',
      ],
      'no-restricted-properties': [
        'error',
        {
          object: 'Math',
          property: 'random',
          message: 'The core has no chance in it; pass values in.',
        },
        {
          object: 'Temporal',
          property: 'Now',
          message: 'The core reads no clock; `now` is an argument.',
        },
      ],
    },
  },
)
