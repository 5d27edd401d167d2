/** The binder's temperature windows side by side on one scale, with tank setting, flash point and mix. */
import type { TemperaturesSheet, Window } from '../../../machines/yard/mixes/temperatures-sheet.ts';
import { figure } from './words.ts';

const W = 600;
const ROW = 34;
const LEFT = 150;
const RIGHT = 78;

export type Pin = { readonly name: string; readonly tempC: number; readonly warn: boolean };

export function WindowsPicture({
  windows,
  pins,
}: {
  readonly windows: TemperaturesSheet['windows'];
  readonly pins: readonly Pin[];
}) {
  const rows: { readonly name: string; readonly window: Window }[] = [
    { name: 'Mix file', window: windows.file },
    ...(windows.viscosity === null ? [] : [{ name: 'By viscosity', window: windows.viscosity }]),
    ...(windows.published === null
      ? []
      : [{ name: `Published, ${windows.published.grade}`, window: windows.published.window }]),
  ];
  const temps = [
    ...rows.flatMap(({ window }) => [window.fromC, window.toC]),
    ...pins.map((pin) => pin.tempC),
  ];
  const low = Math.floor((Math.min(...temps) - 4) / 10) * 10;
  const high = Math.ceil((Math.max(...temps) + 4) / 10) * 10;
  const x = (tempC: number): number => LEFT + ((tempC - low) / (high - low)) * (W - LEFT - RIGHT);
  const height = rows.length * ROW + 26 + pins.length * 18;
  const ticks = Array.from({ length: (high - low) / 10 + 1 }, (_, i) => low + i * 10);
  return (
    <svg
      className="mx-windows"
      viewBox={`0 0 ${W} ${height}`}
      role="img"
      aria-label={`Binder windows: ${rows
        .map(({ name, window }) => `${name} ${figure(window.fromC, 0)} to ${figure(window.toC, 0)} °C`)
        .join('; ')}. ${pins.map((pin) => `${pin.name} ${figure(pin.tempC, 0)} °C`).join('; ')}.`}
    >
      {ticks.map((tempC) => (
        <g key={tempC}>
          <line className="mx-grid" x1={x(tempC)} x2={x(tempC)} y1="0" y2={height - 20} />
          <text className="mx-tick" x={x(tempC)} y={height - 5} textAnchor="middle">
            {tempC}°
          </text>
        </g>
      ))}
      {rows.map(({ name, window }, i) => (
        <g key={name}>
          <text className="mx-name" x="0" y={i * ROW + 22}>
            {name}
          </text>
          <rect
            className={i === 0 ? 'mx-window own' : 'mx-window'}
            x={x(window.fromC)}
            y={i * ROW + 8}
            width={Math.max(1, x(window.toC) - x(window.fromC))}
            height="18"
            rx="3"
          />
          <text className="mx-tick" x={x(window.toC) + 6} y={i * ROW + 22}>
            {figure(window.fromC, 0)}–{figure(window.toC, 0)} °C
          </text>
        </g>
      ))}
      {pins.map((pin, i) => {
        const y = rows.length * ROW + 14 + i * 18;
        const right = x(pin.tempC) > W - 140;
        return (
          <g key={pin.name} className={pin.warn ? 'mx-pin warn' : 'mx-pin'}>
            <line x1={x(pin.tempC)} x2={x(pin.tempC)} y1="4" y2={y} />
            <text
              className="mx-pin-words"
              x={x(pin.tempC) + (right ? -6 : 6)}
              y={y}
              textAnchor={right ? 'end' : 'start'}
            >
              {pin.name} {figure(pin.tempC, 0)} °C
            </text>
          </g>
        );
      })}
    </svg>
  );
}
