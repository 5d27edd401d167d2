/** A report on screen: the sections the paper has, in the same order. */
import { Fragment, memo } from 'react';
import {
  cellText,
  columnHead,
  type Figure,
  type ReportDocument,
  type Section,
  type Table,
} from '../../machines/reports/document.ts';
import { keepUnits } from '../format/format.ts';
import { Mark } from '../parts/mark.tsx';
import { ReportPicture } from './picture.tsx';

const figureText = ({ value, unit, digits }: Figure): string =>
  unit === '' || value === null ? cellText(value, digits) : `${cellText(value, digits)}\u00a0${unit}`;

function Figures({ figures }: { readonly figures: readonly Figure[] }) {
  return (
    <dl className="report-figures">
      {figures.map((figure) => (
        <div key={figure.label} className={figure.look === true ? 'look' : undefined}>
          <dt>{figure.label}</dt>
          <dd className="num">
            {figure.look === true && <Mark shape="triangle" />}
            <span>
              {figureText(figure)}
              {figure.remark !== undefined && figure.remark !== '' && (
                <span className="soft">, {keepUnits(figure.remark)}</span>
              )}
            </span>
          </dd>
        </div>
      ))}
    </dl>
  );
}

function TableView({ table }: { readonly table: Table }) {
  if (table.rows.length === 0) return <p className="soft">{table.empty}</p>;
  const look = new Set(table.look ?? []);
  const right = table.columns.map(
    (column, i) => column.digits !== undefined && table.rows.some((row) => typeof row[i] === 'number'),
  );
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="report-table" tabIndex={0} aria-label={`${table.title}, scrolls sideways`}>
      <table className="num">
        <thead>
          <tr>
            {table.columns.map((column, i) => (
              <th key={column.key} scope="col" className={right[i] ? 'right' : undefined}>
                {columnHead(column)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows of a finished report never change places
            <tr key={i} className={look.has(i) ? 'look' : undefined}>
              {table.columns.map((column, k) => (
                <td key={column.key} className={right[k] ? 'right' : undefined}>
                  {k === 0 && look.has(i) && <Mark shape="triangle" />}
                  {cellText(row[k] ?? null, column.digits)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Body({ section }: { readonly section: Section }) {
  switch (section.is) {
    case 'picture':
      return <ReportPicture picture={section.picture} />;
    case 'figures':
      return <Figures figures={section.figures} />;
    case 'table':
      return <TableView table={section} />;
    case 'code':
      return (
        <div className="report-words soft">
          {section.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
          <p>On paper a square says: {section.code}</p>
        </div>
      );
    case 'words':
      return (
        <div className="report-words soft">
          {section.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      );
  }
}

export const ReportView = memo(function ReportView({ document }: { readonly document: ReportDocument }) {
  return (
    <article className="card report" aria-labelledby="report-title">
      <h2 id="report-title">{document.title}</h2>
      <p className="report-lead">{document.lead}</p>
      {document.sections.map((section) => (
        <Fragment key={section.id}>
          <h3>{section.title}</h3>
          <Body section={section} />
        </Fragment>
      ))}
    </article>
  );
});
