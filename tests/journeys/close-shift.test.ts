/** A shift is closed with handover notes, sealed, countersigned by the supervisor at another console, and taken away. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { verifyFile } from '../../server/verify/verify-file.ts';
import { axeFindings } from './support/axe.ts';
import { actions, button, eventually, sayWho, takeControls } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();

it('is handed over, sealed, countersigned and exported', async () => {
  const { page } = await yard.console();
  await sayWho(page, 'operator');
  await takeControls(page);
  await actions(page).locator('[data-do="endShift"]').click();
  const dialog = page.getByRole('dialog', { name: 'End the shift?' });
  await dialog.getByText('The books close').waitFor();
  expect(await axeFindings(page)).toEqual([]);
  expect(await layoutFaults(page, false)).toEqual([]);
  // Asked for, not demanded: the first press asks once more.
  await button(dialog, 'End the shift').click();
  await dialog.getByText(/Nothing to hand over/).waitFor();
  await dialog.getByLabel(/Handover notes/).fill('The gate of bin 2 sticks: knock it.');
  await button(dialog, 'End the shift').click();
  const seal = page.getByRole('region', { name: 'Sealed' });
  await seal.waitFor();
  await seal.getByText('not yet').waitFor();

  const { page: second } = await yard.console('tablet');
  await sayWho(second, 'supervisor');
  await button(second, 'Countersign…').first().click();
  const signing = second.getByRole('dialog', { name: 'Countersign this shift' });
  await signing.getByLabel(/Remark/).fill('looked through');
  expect(await axeFindings(second)).toEqual([]);
  expect(await layoutFaults(second, true)).toEqual([]);
  await button(signing, 'Countersign').click();
  await signing.waitFor({ state: 'detached' });
  // The first console hears of it without being asked.
  await eventually(async () => expect(await seal.textContent()).toContain('looked through'));

  // An operator is told why not.
  await button(seal, 'Countersign…').click();
  await button(page.getByRole('dialog', { name: 'Countersign this shift' }), 'Countersign').click();
  await page
    .getByText(/countersigned by a supervisor, and you are here as operator/)
    .first()
    .waitFor();

  const { url, dataDir } = yard.served();
  const shifts = await (await fetch(`${url}/api/shifts`)).json();
  const { fingerprint } = await (await fetch(`${url}/api/key`)).json();
  const file = join(dataDir, 'shift.zip');
  writeFileSync(
    file,
    Buffer.from(await (await fetch(`${url}/api/shifts/${shifts[0].shift}/export`)).arrayBuffer()),
  );
  const verdict = await verifyFile(file, { key: fingerprint, redecide: true });
  expect(verdict).toMatchObject({ result: 'intact', keyPinned: true, redecided: { result: 'same' } });
  expect(verdict.countersigned).toHaveLength(1);
});
