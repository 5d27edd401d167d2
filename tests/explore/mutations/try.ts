import { PERMISSIVE_MUTATIONS } from './permissive-mutations.ts';
import { GATE_LIST_MUTATIONS } from './gate-list-mutations.ts';
import { GATE_LINE_MUTATIONS } from './gate-line-mutations.ts';
import { huntGate, gateDiffers } from './gate-hunt.ts';
import { huntLighting } from './lighting-hunt.ts';
import { huntAsking } from './asking-hunt.ts';
import { gate } from '../../../machines/line/gate.ts';
import { judged } from './mutation.ts';
let t = performance.now();
console.log('true', huntGate(gate), gateDiffers(gate), huntLighting(), huntAsking(), performance.now() - t);
for (const m of [...PERMISSIVE_MUTATIONS, ...GATE_LIST_MUTATIONS, ...GATE_LINE_MUTATIONS]) {
  t = performance.now();
  const v = judged(m);
  console.log(v.is, 'rule' in v ? v.rule : '', m.of, '|', m.broken, '|', v.is === 'alive' ? v.why : '', Math.round(performance.now() - t));
}
