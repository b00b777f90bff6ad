"""`fasten template JOB MOUNT`: the drilling template of a mount point at 1:1, on paper or for a machine."""

import argparse


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("mount", metavar="MOUNT", help="the mount point, by name")
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    from fasten.report.template.written import FORMATS

    forms = "svg, html in tiles that print on A4 and Letter, or dxf for a router or laser; else as --out ends, or svg"
    parser.add_argument("--format", choices=FORMATS, default="", help=forms)
    parser.add_argument("--out", default="", metavar="FILE", help="write it to this file or into this folder")
    parser.add_argument("--force", action="store_true", help="replace the file that is there")


def run(args: argparse.Namespace) -> int:
    """Print or write the template; 1 where nothing fits at the mount point.

    Raises:
        FastenError: job or shelf cannot be read, the mount point is not there or needs no hole, or the file cannot be
            written.
    """
    from fasten.commands._documents import form_of, put, read_job, read_shelf
    from fasten.commands._streams import say
    from fasten.commands._tables import open_tables
    from fasten.errors import FastenError
    from fasten.job.edit import find_mount
    from fasten.job.entries import mount_choice
    from fasten.job.names import own_file_name
    from fasten.job.shelf.owned import owned_of
    from fasten.report.template.svg import sheet_for
    from fasten.report.template.written import FORMATS, written
    from fasten.text.shown import shown

    form, tables = form_of(args, FORMATS), open_tables()
    job = read_job(args, tables)
    mount = find_mount(job, args.mount)
    found = mount_choice(mount, job, tables, owned_of(read_shelf(args, tables), tables))
    if found.answer is None or found.point is None:
        say(f"no template for {shown(mount.name)}: {found.reason}")
        return 1
    if found.answer.proposal.joint.hole is None:
        what = f"no hole is drilled at {shown(mount.name)}, so there is no template: {found.answer.title}"
        raise FastenError(what, where="MOUNT", fix="name a mount point that is drilled, or see `fasten work`")
    drawn = written(sheet_for(found.answer, found.point, mount.name, repairs=found.repairs), form)
    own_name = own_file_name(mount.name, (other.name for other in job.mounts))
    put(drawn, args, f"{own_name}-template", form)
    return 0
