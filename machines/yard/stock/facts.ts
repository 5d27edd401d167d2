/** What happened to the stock by people's hands, in the past tense and complete. What the line did is told by the line. */
import type { Delivery, Drawn, LoadFor, LotShare, PlaceId, Rule, StoreId, TankName } from './state.types.ts';

export type StockFact =
  /** A truck or a parcel with its papers; aggregate and additive lie in their store with this fact. */
  | {
      readonly is: 'deliveryRegistered';
      readonly delivery: string;
      readonly material: Delivery['material'];
      readonly store: StoreId;
      readonly ticket: string;
      readonly supplier: string;
      readonly grams: number;
      readonly keepsUntil: string | null;
      readonly note: string;
    }
  | {
      readonly is: 'deliveryCorrected';
      readonly delivery: string;
      readonly was: { readonly grams: number; readonly ticket: string; readonly keepsUntil: string | null };
      readonly now: { readonly grams: number; readonly ticket: string; readonly keepsUntil: string | null };
      readonly reason: string;
    }
  | { readonly is: 'deliveryCancelled'; readonly delivery: string; readonly reason: string }
  /** A tank dipped: from mm to litres, to litres at 15 °C, to kg. */
  | {
      readonly is: 'tankDipped';
      readonly tank: TankName;
      readonly dipMm: number;
      readonly tempC: number;
      readonly litres: number;
      readonly factor: number;
      readonly litresAt15: number;
      readonly densityAt15KgM3: number;
      readonly grams: number;
      readonly bookGrams: number;
      readonly limitGrams: number;
    }
  | {
      readonly is: 'storeCounted';
      readonly store: StoreId;
      readonly grams: number;
      readonly bookGrams: number;
      readonly limitGrams: number;
      readonly how: string;
    }
  /** The books brought to what was measured, or back. */
  | {
      readonly is: 'storeAdjusted';
      readonly movement: string;
      readonly store: StoreId;
      readonly was: number;
      readonly now: number;
      readonly reason: string;
    }
  | {
      readonly is: 'ruleSet';
      readonly store: StoreId;
      readonly was: Rule;
      readonly now: Rule;
      readonly reason: string;
    }
  /** Mix moved by hand between bays, to waste, or to and from an adjustment. */
  | {
      readonly is: 'mixMoved';
      readonly movement: string;
      readonly what: 'moved' | 'wasted' | 'counted';
      readonly from: PlaceId | 'waste' | 'adjustment';
      readonly to: PlaceId | 'waste' | 'adjustment';
      readonly drawn: readonly Drawn[];
      readonly lots: readonly LotShare[];
      readonly reason: string;
      /** What was measured, when it was a stock-take. */
      readonly measured: null | { readonly how: string; readonly grams: number; readonly bookGrams: number };
    }
  | { readonly is: 'lotReworked'; readonly lot: string; readonly place: PlaceId; readonly reason: string }
  | {
      readonly is: 'bagsFilled';
      readonly movement: string;
      readonly from: PlaceId;
      readonly drawn: readonly Drawn[];
      readonly nominalKg: number;
      /** OIML R 61 accuracy class the bags were held against. */
      readonly accuracyClass: number;
      readonly bags: number;
      readonly grams: number;
      /** Bags weighed one by one, kg. */
      readonly weighedKg: readonly number[];
    }
  | {
      readonly is: 'loadMadeOut';
      readonly load: string;
      readonly mix: string;
      readonly mixName: string;
      readonly family: TankName;
      readonly as: 'bulk' | 'bags';
      readonly vehicle: string;
      readonly crew: string;
      readonly list: string;
      readonly route: string;
      readonly for: readonly LoadFor[];
      readonly grams: number;
    }
  | { readonly is: 'loadCancelled'; readonly load: string; readonly reason: string }
  | {
      readonly is: 'loadWeighedOut';
      readonly load: string;
      readonly tareGrams: number;
      readonly grossGrams: number;
      readonly netGrams: number;
      readonly bags: number;
      readonly drawn: readonly Drawn[];
      readonly lots: readonly LotShare[];
      readonly byConcession: readonly string[];
    }
  | {
      readonly is: 'patchLaid';
      readonly load: string;
      readonly n: number;
      readonly patch: string;
      readonly where: string;
      readonly grams: number;
      readonly lots: readonly LotShare[];
      /** Compacted thickness of each layer, mm. */
      readonly layers: readonly number[];
    }
  | {
      readonly is: 'patchLaidReversed';
      readonly load: string;
      readonly n: number;
      readonly patch: string;
      readonly grams: number;
      readonly lots: readonly LotShare[];
      readonly reason: string;
    }
  | {
      readonly is: 'mixReturned';
      readonly movement: string;
      readonly load: string;
      readonly to: PlaceId | 'waste';
      readonly lots: readonly LotShare[];
      readonly grams: number;
      readonly reason: string;
    }
  /** A movement taken back: the same grams the other way. */
  | {
      readonly is: 'movementReversed';
      readonly movement: string;
      readonly reverses: string;
      readonly from: string;
      readonly to: string;
      readonly drawn: readonly Drawn[];
      readonly lots: readonly LotShare[];
      readonly grams: number;
      readonly reason: string;
    };

export type StockFactName = StockFact['is'];
