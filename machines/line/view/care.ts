/** Causes that hold now, upkeep, permits and tanks as a person reads them. */
import { standingSafeguards } from '../../charts/burner/burner.safeguards.ts';
import { CAUSES, type InterlockCauseId } from '../../charts/flame-interlock/flame-interlock.causes.ts';
import {
  latchedCauses,
  standingCauses,
  unmetPermissives,
} from '../../charts/flame-interlock/flame-interlock.guards.ts';
import { UPKEEP } from '../../charts/flame-interlock/flame-interlock.upkeep.ts';
import {
  heatBlockedBy,
  tankMayAskForHeat,
  tankPermissives,
} from '../../charts/tank-interlock/tank-interlock.guards.ts';
import { type Line, type Product, TICK_MS } from '../line.types.ts';
import { chartValue } from '../lookup.ts';
import { inhibitsInForce, proofStandings } from '../maintenance.ts';
import { coverNeededMm, heaterKindOf, heaterRulesOf, PRODUCTS } from '../tank-care.ts';
import type {
  CausesView,
  MaintenanceView,
  PermissiveView,
  PermitView,
  ProofView,
  TankView,
} from '../view.types.ts';

const nameOf = (line: Line, person: string): string =>
  line.scenario.people.find((one) => one.id === person)?.name ?? person;

/** Lockouts of the burner are latched; its purges only hold. */
const lockouts = (ids: readonly InterlockCauseId[]): readonly InterlockCauseId[] =>
  ids.filter((id) => id !== 'FB-01' && id !== 'FB-08');

const causesOf = (line: Line): CausesView => {
  const interlock = chartValue(line, 'interlock') as never;
  const safeguards = standingSafeguards(chartValue(line, 'burner') as never);
  return {
    holding: [
      ...unmetPermissives(interlock),
      ...standingCauses(interlock),
      ...safeguards,
      ...PRODUCTS.flatMap((tank) => heatBlockedBy(tank, chartValue(line, `${tank}TankInterlock`) as never)),
    ],
    latched: [...latchedCauses(interlock), ...lockouts(safeguards)],
  };
};

/** Causes follow from the charts alone: drawn up once for each set of them. */
const causesKnown = new WeakMap<Line['charts'], CausesView>();
export const causesView = (line: Line): CausesView => {
  let view = causesKnown.get(line.charts);
  if (view === undefined) {
    view = causesOf(line);
    causesKnown.set(line.charts, view);
  }
  return view;
};

const proofView = (line: Line, one: ReturnType<typeof proofStandings>[number]): ProofView => {
  const inhibit = line.maintenance.inhibits[one.id];
  return {
    cause: one.id,
    text: CAUSES[one.id].cause,
    everyDays: one.everyDays,
    last:
      one.last === null
        ? null
        : {
            on: one.last.on,
            result: one.last.result,
            by: nameOf(line, one.last.by),
            remark: one.last.remark,
          },
    dueOn: one.dueOn,
    standing: one.standing,
    mayInhibit: UPKEEP[one.id].inhibitMin > 0,
    inhibit:
      inhibit === undefined
        ? null
        : {
            state: inhibit.untilTick === null ? 'waits for a second person' : 'in force',
            reason: inhibit.reason,
            by: nameOf(line, inhibit.by.person),
            confirmedBy: inhibit.confirmedBy === null ? '' : nameOf(line, inhibit.confirmedBy.person),
            minutes: inhibit.minutes,
            untilMs: inhibit.untilTick === null ? null : inhibit.untilTick * TICK_MS,
          },
  };
};

const maintenanceKnown = new WeakMap<Line['maintenance'], MaintenanceView>();
export const maintenanceView = (line: Line): MaintenanceView => {
  let view = maintenanceKnown.get(line.maintenance);
  if (view === undefined) {
    const proofs = proofStandings(line).map((one) => proofView(line, one));
    view = {
      proofs,
      overdue: proofs.filter((one) => one.standing === 'overdue').length,
      banner: inhibitsInForce(line).map((id) => {
        const inhibit = line.maintenance.inhibits[id];
        return `${id} is inhibited for testing by ${nameOf(line, inhibit?.by.person ?? '')}: ${inhibit?.reason ?? ''}. It ends by itself.`;
      }),
    };
    maintenanceKnown.set(line.maintenance, view);
  }
  return view;
};

export const permitViews = (line: Line): readonly PermitView[] => {
  const { permit } = line.maintenance;
  if (permit === null) return [];
  return [
    {
      n: permit.n,
      where: permit.where,
      reason: permit.reason,
      by: nameOf(line, permit.by.person),
      openedMs: permit.openedTick * TICK_MS,
      untilMs: permit.untilTick * TICK_MS,
      over: line.tick >= permit.untilTick,
    },
  ];
};

const shownOf = (line: Line, tank: Product, id: string): string => {
  const { readings: r } = line;
  switch (id.slice(3)) {
    case '01':
      return `${coverOf(line, tank)} mm`;
    case '02':
      return `${r[`${tank}TankC`].toFixed(1)} °C`;
    case '06':
      return `${r.ventLelPct.toFixed(1)} % LEL`;
    case '08':
      return tank === 'cutback' ? `${r.cutbackWaterMm} mm` : '';
    default:
      return '';
  }
};

const coverOf = (line: Line, tank: Product): number =>
  Math.round(line.readings[`${tank}DipMm`] - line.scenario.plant.tanks[tank].coilTopM * 1000);

const heatViews = (line: Line, tank: Product): readonly PermissiveView[] =>
  tankPermissives(tank, chartValue(line, `${tank}TankInterlock`) as never).map((one): PermissiveView => {
    const { words } = CAUSES[one.id];
    return {
      id: one.id,
      text: one.met ? words.met : words.unmet,
      value: shownOf(line, tank, one.id),
      standing: one.met ? 'met' : 'unmet',
      cause: one.met ? '' : words.clear,
    };
  });

const tankView = (line: Line, tank: Product): TankView => {
  const { plant } = line.scenario;
  const memo = line.tankMemos[tank];
  const { delivery } = memo;
  const wrong = delivery?.confirmedAs != null && delivery.confirmedAs !== tank;
  const rules = heaterRulesOf(plant, tank);
  return {
    id: tank,
    kind: heaterKindOf(plant, tank),
    identity: wrong
      ? 'wrong product'
      : memo.holds === tank && delivery === null
        ? 'confirmed'
        : 'not confirmed',
    identityText: delivery === null ? memo.why : `Delivery ${delivery.ticket} is under way`,
    coverMm: coverOf(line, tank),
    coverNeededMm: coverNeededMm(plant, tank),
    waterMm: tank === 'cutback' ? line.readings.cutbackWaterMm : null,
    ventLelPct: line.readings.ventLelPct,
    ventLimitLelPct: rules.ventLimitLelPct,
    mayHeat: tankMayAskForHeat(chartValue(line, `${tank}TankInterlock`) as never),
    delivery:
      delivery === null
        ? null
        : {
            product: delivery.product,
            kg: delivery.kg,
            ticket: delivery.ticket,
            by: nameOf(line, delivery.by.person),
            sinceMs: delivery.sinceTick * TICK_MS,
            confirmedBy: delivery.confirmedBy === null ? '' : nameOf(line, delivery.confirmedBy.person),
          },
    heat: heatViews(line, tank),
  };
};

export const tankCareViews = (line: Line): readonly TankView[] =>
  PRODUCTS.map((tank) => tankView(line, tank));
