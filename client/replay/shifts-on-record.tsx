/** On the Records page: the shifts there are, and a place for an export that came from elsewhere. */
import { useLocation } from 'wouter';
import { DropZone } from './drop-zone.tsx';
import { handOn } from './pending.ts';
import { ShiftList } from './shift-list.tsx';

export function ShiftsOnRecord() {
  const [, go] = useLocation();
  return (
    <div className="shifts-on-record">
      <ShiftList />
      <DropZone
        onFile={(file) => {
          handOn(file);
          go('/replay');
        }}
      />
    </div>
  );
}
