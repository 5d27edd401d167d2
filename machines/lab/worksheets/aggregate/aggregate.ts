/** Sheet of the tests of aggregate: which one is chosen first, the rest follows from it. */
import { makeSheet } from '../make-sheet.ts';
import { choice } from '../spec.ts';
import { cleanliness, fractured, shape } from './shape-and-dust.ts';
import { absorption, soundness } from './soundness-and-water.ts';
import { abrasion, impact } from './strength.ts';

const PARTS = { shape, impact, abrasion, soundness, absorption, fractured, cleanliness } as const;
type Part = keyof typeof PARTS;

const LABELS: readonly (readonly [Part, string])[] = [
  ['shape', 'Flakiness and elongation'],
  ['impact', 'Impact value'],
  ['abrasion', 'Abrasion drum'],
  ['soundness', 'Soundness'],
  ['absorption', 'Water absorption'],
  ['fractured', 'Fractured faces'],
  ['cleanliness', 'Cleanliness (sand equivalent)'],
];

export const aggregate = makeSheet({
  id: 'aggregate',
  test: 'aggregate',
  title: 'Tests of aggregate',
  basis: LABELS.map(([part, label]) => `${label}: ${PARTS[part].basis}`).join(' '),
  cautions: [
    'Impact machine and abrasion drum: guards shut before they turn; ear protection.',
    'Sulfate solutions irritate eyes; stone from the oven burns.',
  ],
  fields: [
    choice('Test', 'what', 'Test', LABELS),
    ...LABELS.flatMap(([part]) =>
      PARTS[part].fields.map((field) => ({ ...field, when: { key: 'what', is: [part] } })),
    ),
  ],
  steps: [
    {
      title: 'Reduce',
      instruction: 'Reduce the sample with the splitter; wash and dry to constant mass.',
      tempC: 110,
    },
    { title: 'Test', instruction: 'As the method of the chosen test says; enter every weighing as read.' },
  ],
  leastMinutes: 15,
  work: (values, page) => PARTS[values.text('what') as Part].work(values, page),
});
