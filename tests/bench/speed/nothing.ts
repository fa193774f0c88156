/** A program that does nothing: bare node. */
export {};
