export const FLOOR: Record<string, number>;
export const TARGETS: string[];
