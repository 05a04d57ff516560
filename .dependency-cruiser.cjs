/** The layer order of the product, lowest first: a module may import its own layer and those before it. */
const LAYERS = [
  'text',
  'theory',
  'neck',
  'hand',
  'voicing',
  'lesson',
  'score',
  'engrave',
  'export',
  'reading',
  'assist',
];

const upward = LAYERS.map((layer, index) => ({
  name: `${layer}-stays-below`,
  severity: 'error',
  comment: `shared/${layer} may import only itself and the layers below it.`,
  from: { path: `^shared/${layer}/` },
  to: { path: `^shared/(${LAYERS.slice(index + 1).join('|') || 'nothing-above'})/` },
}));

/** What the pure core may take from the registry: prose Markdown, and the bytes of MIDI files. */
const CORE_PACKAGES = '^node_modules/(micromark[^/]*|midi-file)/';

module.exports = {
  forbidden: [
    ...upward,
    {
      name: 'core-is-pure',
      severity: 'error',
      comment: 'shared/ knows neither editor, protocol, Node nor page; it takes what it needs as an argument.',
      from: { path: '^shared/' },
      to: { pathNot: `^shared/|${CORE_PACKAGES}` },
    },
    {
      name: 'server-knows-no-editor',
      severity: 'error',
      from: { path: '^server/' },
      to: { path: '^client/|^test/|^vscode$|vscode-languageclient' },
    },
    {
      name: 'client-asks-the-server',
      severity: 'error',
      comment:
        'The client and its page hold no musical rule: of the core they see only plain types. The player works out a stroke at tempos that no server knows.',
      from: { path: '^client/' },
      to: {
        path: '^shared/|^server/',
        dependencyTypesNot: ['type-only'],
        pathNot: '^server/protocol/|^shared/score/(strum-spread|performance-packed)|^shared/export/page/packed-markup',
      },
    },
    {
      name: 'product-needs-no-test',
      severity: 'error',
      from: { path: '^(shared|server|client)/' },
      to: { path: '^test/' },
    },
    { name: 'no-circle', severity: 'error', from: {}, to: { circular: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { extensions: ['.ts', '.mjs', '.js', '.json'] },
  },
};
