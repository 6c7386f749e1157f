/** One coordinate on a handwheel: whole turns and divisions of its dial from zero, both with the sign of the move. */
export interface DialSetting {
  readonly turns: number;
  readonly divisions: number;
  /** What a dial that counts up shows there: on the way back it counts down from its last division. */
  readonly dial: number;
  /** What the nearest division leaves, mm: place asked for less place set. */
  readonly error: number;
}

/** One hole on the handwheels: its side, and both coordinates as turns and divisions. */
export interface HandwheelRow {
  readonly hole: string;
  readonly side: 'A' | 'B';
  readonly x: DialSetting;
  readonly y: DialSetting;
}

/** Every place by the handwheels. */
export interface Handwheel {
  /** mm a turn and mm a division. */
  readonly pitch: number;
  readonly division: number;
  readonly rows: readonly HandwheelRow[];
  /** Greatest place error from whole divisions, mm. */
  readonly worst: number;
}
