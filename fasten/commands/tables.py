"""`fasten tables`: what is installed, one table whole, and with `--check` whether every value is right."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fasten.catalog.load import Table
    from fasten.catalog.tables import Tables
    from fasten.errors import FastenError


KEYS = "json"  # in place of a table


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    listed = "items, materials, grades, cases, or the name of a table: print its rows; json: every key of --json"
    parser.add_argument("name", nargs="?", default="", metavar="NAME", help=listed)
    parser.add_argument("--check", action="store_true", help="look at every value of every table")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print the list, or the rows that are named; 2 where a table of the program or of the user's own cannot be used.

    Raises:
        FastenError: there is no table of that name.
    """
    from fasten.commands._tables import open_tables
    from fasten.report.plain import to_json
    from fasten.report.tables_text import listing, tables_text

    if args.name == KEYS:
        return _print_keys(args)
    if args.name:
        return _print_rows(args)

    tables = open_tables(strict=args.check)
    wrong = tuple(str(problem) for problem in _wrong(tables, check=args.check))
    found = listing(tables, checked=args.check, problems=wrong + tuple(str(problem) for problem in tables.problems))
    print(to_json(found) if args.json else tables_text(found), end="\n" if args.json else "")
    _report(wrong)
    return 2 if found.problems else 0


def _print_keys(args: argparse.Namespace) -> int:
    """Print every key of the JSON of the commands."""
    from fasten.commands._documents import text_width
    from fasten.report.json_keys import keys_json, keys_text
    from fasten.report.plain import json_text

    print(json_text(keys_json()) if args.json else keys_text(text_width()), end="\n" if args.json else "")
    return 0


def _print_rows(args: argparse.Namespace) -> int:
    """Print the tables that a name stands for."""
    from fasten.commands._documents import text_width
    from fasten.commands._tables import open_tables
    from fasten.report.plain import json_text
    from fasten.report.rows_text import rows_json, rows_text, tables_named

    tables = open_tables()
    found = [tables.table(name) for name in tables_named(args.name)]
    print(json_text(rows_json(found)) if args.json else rows_text(found, text_width()), end="\n" if args.json else "")
    return 0


def _wrong(tables: "Tables", *, check: bool) -> "Iterator[FastenError]":
    """What is wrong with the shipped tables, or with them and the user's own laid over."""
    from fasten.catalog.registry import TABLES
    from fasten.errors import FastenError

    unread = False
    for name in TABLES:
        try:
            table = tables.table(name)
            if check:
                _check_table(table)
        except FastenError as error:
            unread = True
            yield error
    if check:
        yield from _unregistered()
    if check and not unread:
        yield from _dangling(tables)
        yield from _unknown(tables)


def _check_table(table: "Table") -> None:
    from fasten.catalog.check import check_table

    check_table(table, f"{table.name}.toml")


def _unregistered() -> "Iterator[FastenError]":
    from fasten.catalog.check import unregistered
    from fasten.catalog.tables import shipped_folder

    return unregistered(shipped_folder())


def _dangling(tables: "Tables") -> "Iterator[FastenError]":
    from fasten.catalog.check import check_references
    from fasten.errors import FastenError

    try:
        check_references(tables.table)
    except FastenError as error:
        yield error


def _unknown(tables: "Tables") -> "Iterator[FastenError]":
    """What the tables of the work name that nothing knows."""
    from itertools import chain

    from fasten.advice.check import problems
    from fasten.wiring.check import problems as problems_of_wiring

    return chain(problems(tables), problems_of_wiring(tables))


def _report(problems: tuple[str, ...]) -> None:
    # The user's own tables have been reported where they were opened.
    from fasten.commands._streams import say

    for problem in problems:
        say(problem)
