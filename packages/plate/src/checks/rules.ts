/**
 * Every check by its rule, and what failing it means: the parts do not go together, they may not, or the plate is weaker than
 * it should be.
 */
export const rules = {
  'web between cuts': 'weak',
  'hole to raised spigot': 'apart',
  'wall of the raised spigot': 'weak',
  'hole to edge': 'weak',
  'metal to the edge': 'weak',
  'floor under the counterbore': 'weak',
  'floor under the countersink': 'weak',
  'floor under the drill point': 'weak',
  'floor of the recess': 'weak',
  'floor between cuts': 'weak',
  'nut under the other part': 'apart',
  'cap screw under the other part': 'apart',
  'room for the socket': 'apart',
  'seat of the nut or head': 'weak',
  'fasteners out of reach once the other part is on': 'apart',
  'stud left for its nut and washer': 'weak',
  "stud's end under the other part": 'apart',
  "dowel's end under the other part": 'apart',
  'a leaning stud clears the whole thickness': 'apart',
  'thread engaged in the plate': 'weak',
  "room below the bolt's end": 'apart',
  "bolt passes the part's own hole": 'apart',
  'thread engaged in the part': 'weak',
  'clear of what stands out of the part': 'apart',
  'clear above what stands out of the part': 'apart',
  'register goes on': 'apart',
  'faces meet before the register bottoms': 'apart',
  'wall of the register': 'weak',
  'dowels that locate the same thing': 'apart',
  'two round dowels fight': 'apart',
  'jacking screw pushes on metal': 'weak',
  'chance that it goes on': 'chance',
  'offset of the shafts': 'line',
  'tilt of the shafts': 'line',
} as const;

export type Rule = keyof typeof rules;

const isRule = (text: string): text is Rule => text in rules;

/** What failing a rule means; `weak` for one that is not known. */
export const meaningOf = (rule: string): (typeof rules)[Rule] => (isRule(rule) ? rules[rule] : 'weak');
