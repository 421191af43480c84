using Broodtide.Domain.Journal;
using CsCheck;
using NodaTime;

namespace Broodtide.Domain.Tests.Kit;

/// <summary>One stroke of a wild journal; the numbers are taken modulo what there is.</summary>
internal readonly record struct Stroke(
    int Replica,
    int What,
    int Target,
    int WrittenMinute,
    int HappenedMinute,
    int Width
);

/// <summary>
/// Wild journals: facts, replacements, retractions and erasures of anything (also of corrections, of themselves,
/// of what comes later and of what never comes), identities twice, numbers twice, unknown kinds, facts that cannot
/// be, ties in every time.
/// </summary>
internal static class Scrawl
{
    public const int LatestMinute = 7;

    public static Gen<Stroke[]> Strokes(int most) =>
        Gen.Select(
                Gen.Int[0, 2],
                Gen.Int[0, 15],
                Gen.Int[0, 1000],
                Gen.Int[0, LatestMinute],
                Gen.Int[0, 4],
                Gen.Int[0, 2]
            )
            .Select((r, w, t, m, h, d) => new Stroke(r, w, t, m, h, d))
            .Array[0, most];

    public static Gen<Entry[]> Journals(int most) => Strokes(most).Select(Write);

    public static Entry[] Write(Stroke[] strokes)
    {
        var pens = new[] { new Pen(0), new Pen(1), new Pen(2) };
        var entries = new List<Entry>();
        for (var i = 0; i < strokes.Length; i++)
        {
            var stroke = strokes[i];
            var pen = pens[stroke.Replica];
            // Some targets are in the pool of entries that never come.
            var target = new EntryId(Pen.Uuid(0x100 + (stroke.Target % (strokes.Length + 3))));
            Correction? correction = stroke.What switch
            {
                4 or 5 or 6 or 7 => new(CorrectionKind.Replaces, target),
                8 or 9 or 10 => new(CorrectionKind.Retracts, target),
                11 => new(CorrectionKind.Erases, target),
                _ => null,
            };
            var id = stroke.What == 12 ? target : new EntryId(Pen.Uuid(0x100 + i));
            var again = stroke.What == 13 && pen.Sequence > 0;
            var earliest = Pen.Start + Duration.FromMinutes(stroke.HappenedMinute);
            var retracts = correction is { Kind: not CorrectionKind.Replaces };
            entries.Add(
                pen.Raw(
                    new Envelope
                    {
                        Id = id,
                        Replica = pen.Replica,
                        Sequence = again ? pen.Sequence : pen.Sequence + 1,
                        Author = new Author("Ada"),
                        Written = Pen.Start + Duration.FromMinutes(stroke.WrittenMinute),
                        Zone = "Europe/Berlin",
                        Happened = Happened.Between(earliest, earliest + Duration.FromMinutes(stroke.Width)),
                        Kind =
                            stroke.What == 14 ? "vessel sung to"
                            : retracts ? "entry taken back"
                            : "note written",
                        Version = 1,
                        Correction = correction,
                        Previous =
                            again && pen.Sequence == 1 || pen.Sequence == 0
                                ? null
                                : pen.Previous ?? Digest.Of([]),
                        Body = default,
                    },
                    stroke.What == 15 ? """{"text":null}"""
                        : retracts ? "{}"
                        : $$"""{"text":"{{i}}"}""",
                    i,
                    counts: !again
                )
            );
        }

        return [.. entries.DistinctBy(entry => entry.Digest)];
    }
}
