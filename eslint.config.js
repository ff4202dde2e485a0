import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

// Formatting is Biome's; this is only about meaning. `strictTypeChecked` is the base, every departure says why.
export default defineConfig(
  { ignores: ['dist/**', 'coverage/**', 'demo-reports/**', 'node_modules/**'] },
  {
    files: ['src/**/*.ts', 'tests/**/*.ts'],
    extends: [tseslint.configs.strictTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      eqeqeq: 'error',
      'no-console': 'error',
      'no-param-reassign': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      // A `default` answers for the kinds that a question is not about.
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      // Numbers in sentences are wanted; objects and undefined are not.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true, allowBoolean: true }],
      // `() => array.push(x)` in a forEach, `return reply.send()`: harmless shorthand.
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
    },
  },
  {
    files: ['src/**/*.ts'],
    rules: {
      // Every run makes a hidden class of its own for it, which V8 keeps, with all that the getter closes over, until a full
      // garbage collection: a fifth of a verification's time went into copying that about. A class's getters are made once.
      'no-restricted-syntax': [
        'error',
        { selector: "ObjectExpression > Property[kind='get']", message: 'Make it a getter of a class.' },
      ],
    },
  },
  {
    // The demo is a program for a terminal.
    files: ['src/demo/**/*.ts', 'src/http/write-openapi.ts', 'tests/bench/**/*.ts'],
    rules: { 'no-console': 'off' },
  },
  {
    files: ['tests/**/*.ts'],
    rules: {
      // A test may assert what it knows; a wrong assertion fails the test.
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/no-unsafe-type-assertion': 'off',
      '@typescript-eslint/no-explicit-any': 'off',
      '@typescript-eslint/unbound-method': 'off',
      '@typescript-eslint/no-unnecessary-condition': 'off',
      '@typescript-eslint/no-base-to-string': 'off',
      '@typescript-eslint/no-misused-spread': 'off',
      '@typescript-eslint/require-await': 'off',
    },
  },
);
