/** Lays out any report: paper, screen and table all start from here. */
import type { ReportDocument } from '../document.ts';
import type { Report } from '../report.ts';
import { alarmsDocument } from './alarms.ts';
import { batchDocument } from './batch.ts';
import { certificateDocument } from './certificate.ts';
import { lotDocument } from './lot.ts';
import { refusalsDocument } from './refusals.ts';
import { shiftDocument } from './shift.ts';

export const documentOf = (report: Report): ReportDocument => {
  switch (report.kind) {
    case 'shift':
      return shiftDocument(report);
    case 'batch':
      return batchDocument(report);
    case 'lot':
      return lotDocument(report);
    case 'certificate':
      return certificateDocument(report);
    case 'alarms':
      return alarmsDocument(report);
    case 'refusals':
      return refusalsDocument(report);
  }
};
