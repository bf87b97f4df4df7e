"""Plain-text tables on standard output, rows to CSV."""
import csv


def table(title, head, rows):
    print(f"\n{title}")
    cells = [[str(c) for c in head]] + [[str(c) for c in row] for row in rows]
    widths = [max(len(row[i]) for row in cells) for i in range(len(head))]
    for row in cells:
        print("  " + "  ".join(c.ljust(w) if i == 0 else c.rjust(w) for i, (c, w) in enumerate(zip(row, widths))))


def line(text):
    print(text)


def write_csv(path, rows):
    with open(path, "w", newline="") as file:
        writer = csv.DictWriter(file, fieldnames=list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)
