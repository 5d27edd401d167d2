/** Figures in rows: a name, a value, and in soft words what it rests on. */
export type Figure = { readonly name: string; readonly value: string; readonly more?: string };

export function Figures({ rows }: { readonly rows: readonly Figure[] }) {
  return (
    <dl className="mx-rows">
      {rows.map((row) => (
        <div key={row.name}>
          <dt>
            {row.name}
            {row.more !== undefined && <span className="soft">{row.more}</span>}
          </dt>
          <dd className="num">{row.value}</dd>
        </div>
      ))}
    </dl>
  );
}
