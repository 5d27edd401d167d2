/** What can be decided about a lot as it stands, by whom, and why not where it cannot. Pure; the book has the last word. */
import { LAB_PERMISSIONS, type LabCommand, type LabCommandName } from '../../../machines/lab/commands.ts';
import { isDecided } from '../../../machines/lab/lots.ts';
import type { LabLot } from '../../../machines/lab/state.ts';
import type { Person } from '../../../machines/scenario/people.schema.ts';

export type Decision = {
  readonly name: LabCommandName;
  readonly label: string;
  /** Said before it is done. */
  readonly words: string;
  readonly needsReason: boolean;
  readonly weight: 'primary' | 'plain' | 'danger';
  /** Empty when this person may do it now. */
  readonly because: readonly string[];
  readonly command: (reason: string) => LabCommand;
};

const article = (word: string): string => (/^[aeiou]/i.test(word) ? `an ${word}` : `a ${word}`);

/** Why this person may not give that command; empty when the role may. */
export function whyNotRole(me: Person | null, name: LabCommandName): readonly string[] {
  if (me === null) return ['Say who you are first (top of the page).'];
  const roles = LAB_PERMISSIONS[name];
  return roles.includes(me.role)
    ? []
    : [`${me.name} is ${article(me.role)}; this is for: ${roles.join(', ')}.`];
}

export function decisionsOn(lot: LabLot, me: Person | null): readonly Decision[] {
  const id = lot.lot;
  const make = (
    name: Decision['name'],
    label: string,
    words: string,
    command: Decision['command'],
    more: Partial<Decision> = {},
  ): Decision => ({
    name,
    label,
    words,
    needsReason: true,
    weight: 'plain',
    command,
    ...more,
    because: [...whyNotRole(me, name), ...(more.because ?? [])],
  });
  const reopen = make(
    'reopenDecision',
    'Re-open the decision',
    'The lot goes back to where it stood before. What has already left the yard stays where it is: see the loads.',
    (reason) => ({ do: 'reopenDecision', lot: id, reason }),
    { weight: 'danger' },
  );
  if (isDecided(lot))
    return [
      ...(lot.state === 'rejected' && lot.done === null
        ? [
            make('sendToWaste', 'Send it to waste', 'The whole lot leaves its bay as waste.', (reason) => ({
              do: 'sendToWaste',
              lot: id,
              reason,
            })),
            make(
              'reworkLot',
              'Rework it',
              'The lot is taken up again and made good; it stays out of loads.',
              (reason) => ({
                do: 'reworkLot',
                lot: id,
                reason,
              }),
            ),
          ]
        : []),
      ...(lot.done === 'sent to waste' ? [] : [reopen]),
    ];

  const isAsker = lot.concession !== null && lot.concession.askedBy === me?.id;
  const second = isAsker ? ['You asked for it yourself: a second person grants or refuses it.'] : [];
  const inTheWay = [...lot.failing, ...lot.missing];
  return [
    ...(lot.concession === null
      ? []
      : [
          make(
            'grantConcession',
            'Grant the concession',
            'The lot may then leave the yard though it does not meet its specification. It is done in your name.',
            (reason) => ({ do: 'grantConcession', lot: id, reason }),
            { because: second, weight: 'primary' },
          ),
          make(
            'refuseConcession',
            'Refuse the concession',
            'The lot stays on hold.',
            (reason) => ({ do: 'refuseConcession', lot: id, reason }),
            { because: second },
          ),
        ]),
    make(
      'acceptLot',
      'Accept the lot',
      'The lot may leave the yard from now on. It is done in your name.',
      (reason) => ({ do: 'acceptLot', lot: id, remark: reason }),
      {
        needsReason: false,
        weight: lot.proposal === 'accept' ? 'primary' : 'plain',
        because: inTheWay.length === 0 ? [] : inTheWay,
      },
    ),
    make('investigate', 'Note what was found', 'What was looked into and what came of it.', (reason) => ({
      do: 'investigate',
      lot: id,
      note: reason,
      batches: [],
    })),
    ...(lot.state === 'on hold'
      ? [
          make('liftHold', 'Lift the hold', 'The lot is judged again by its results.', (reason) => ({
            do: 'liftHold',
            lot: id,
            reason,
          })),
        ]
      : [
          make(
            'holdLot',
            'Put it on hold',
            'The lot may not leave until somebody has decided.',
            (reason) => ({
              do: 'holdLot',
              lot: id,
              reason,
            }),
          ),
        ]),
    ...(lot.concession === null && lot.verdict !== 'pass' && lot.closedAt !== null
      ? [
          make(
            'askConcession',
            'Ask for a concession',
            'A supervisor, a second person, decides whether the lot may leave as it is.',
            (reason) => ({ do: 'askConcession', lot: id, reason }),
          ),
        ]
      : []),
    ...(lot.closedAt !== null
      ? [
          make(
            'rejectLot',
            'Reject the lot',
            'The lot may not leave the yard as patching mix. It is then sent to waste or reworked.',
            (reason) => ({ do: 'rejectLot', lot: id, reason }),
            { weight: 'danger' },
          ),
        ]
      : []),
  ];
}
