import { asStory, cannotReach, explore } from './explorer.ts';
import { TASKS } from './models.ts';
import { MUTANTS } from './mutants.ts';

for (const t of TASKS) {
  const m = t.build();
  const e = explore(m);
  console.log(
    m.name,
    e.states,
    e.transitions,
    e.seconds.toFixed(2),
    e.violations.map(asStory).join('\n'),
    t.ready && cannotReach(m, e, t.ready).length,
  );
}
for (const m of MUTANTS) {
  const t = performance.now();
  const s = m.hunt();
  console.log(
    m.rule,
    m.broken,
    s === null ? 'ALIVE' : 'killed',
    ((performance.now() - t) / 1000).toFixed(2),
    s?.split('\n').length,
  );
  if (m.rule === 'NR-16') console.log(s?.slice(0, 6000));
}
