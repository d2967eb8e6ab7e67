// What the script that loads a worker says to it.

declare const PAGE: string;
declare const FILES: string[];
declare const VERSION: string;
