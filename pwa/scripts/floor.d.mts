export function lateInScript(code: string, version?: number, sourceType?: "module" | "script"): Map<string, string[]>;
export function lateInStyle(css: string): Map<string, string[]>;
