using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Review;

/// <summary>The story of a run in a few dated stretches, from what was written down and nothing else.</summary>
internal static class ReviewChapters
{
    public static IReadOnlyList<Chapter> Of(ReviewSpan span) =>
        [
            .. new[]
            {
                Eggs(span),
                Hatching(span),
                Crossing(span),
                Sea(span),
                Settling(span),
                End(span),
            }.OfType<Chapter>(),
        ];

    private static Chapter? Eggs(ReviewSpan span)
    {
        var brood = span.Brood;
        if (brood.FirstSeenBerried is not { } berried)
        {
            return null;
        }

        var over = brood.FirstLarvae ?? brood.Dropped;
        var lines = new List<Remark>
        {
            over is { } end
                ? new Remark(
                    brood.FirstLarvae is null ? "chapter-eggs-dropped" : "chapter-eggs-carried",
                    new Argument("days", Days(berried.Middle, end.Middle)),
                    new Argument("looks", brood.Looks.Count)
                )
                : new Remark(
                    "chapter-eggs-still",
                    new Argument("days", Days(berried.Middle, span.Until)),
                    new Argument("looks", brood.Looks.Count)
                ),
        };
        if (brood.Isolated is { } isolated)
        {
            lines.Add(
                new Remark(
                    "chapter-isolated",
                    new Argument("when", isolated.Middle),
                    new Argument("daysInBox", Days(isolated.Middle, over?.Middle ?? span.Until))
                )
            );
        }

        return new(ChapterCode.Eggs, berried.Earliest, over?.Latest, lines);
    }

    private static Chapter? Hatching(ReviewSpan span)
    {
        var brood = span.Brood;
        if (brood.FirstLarvae is not { } first)
        {
            return null;
        }

        var lines = new List<Remark>();
        if (brood.Gatherings.Count > 0)
        {
            var without = brood.Gatherings.Count(gathering => gathering.Made.Number is null);
            lines.Add(
                new Remark(
                    without == 0 ? "chapter-gathered" : "chapter-gathered-some-unknown",
                    new Argument("gatherings", brood.Gatherings.Count),
                    new Argument(
                        "number",
                        brood.Gatherings.Sum(gathering => (long)(gathering.Made.Number ?? 0))
                    ),
                    new Argument("without", without)
                )
            );
        }
        else
        {
            lines.Add(new Remark("chapter-none-gathered"));
        }

        return new(
            ChapterCode.Hatching,
            first.Earliest,
            brood.Gatherings.Select(gathering => (Instant?)gathering.When.Latest).Max()
                ?? brood.HatchingOver?.Latest,
            lines
        );
    }

    private static Chapter? Crossing(ReviewSpan span)
    {
        var crossings = span.Brood.Crossings;
        if (crossings.Count == 0)
        {
            return null;
        }

        var without = crossings.Count(crossing => crossing.Made.Number is null);
        var lines = new List<Remark>
        {
            new(
                without == 0 ? "chapter-crossed" : "chapter-crossed-some-unknown",
                new Argument("crossings", crossings.Count),
                new Argument("number", crossings.Sum(crossing => (long)(crossing.Made.Number ?? 0))),
                new Argument("without", without)
            ),
        };
        var minutes = crossings
            .Select(crossing => crossing.Made.BrackishMinutes.AsMinutes())
            .OfType<double>()
            .ToList();
        if (minutes.Count > 0)
        {
            lines.Add(new Remark("chapter-brackish", new Argument("longestMinutes", minutes.Max())));
        }

        return new(ChapterCode.Crossing, crossings[0].When.Earliest, crossings[^1].When.Latest, lines);
    }

    private static Chapter? Sea(ReviewSpan span)
    {
        if (span.Stays.Count == 0)
        {
            return null;
        }

        var from = span.Stays.Min(stay => stay.From);
        var until = span.Stays.Max(stay => stay.Until);
        var counts = span.Facts<CountMade>().ToList();
        var samples = span.Facts<StageSampleTaken>().Count();
        var dead = span.Facts<DeadRemoved>().Sum(told => (long)told.Fact.Number);
        var lines = new List<Remark>
        {
            new(
                "chapter-sea",
                new Argument("days", Days(from, until)),
                new Argument("vessels", span.Stays.Count),
                new Argument("counts", counts.Count),
                new Argument("samples", samples)
            ),
        };
        if (counts.Count > 0)
        {
            var alive = counts.LastOrDefault(told => told.Fact.Samples.Any(sample => sample.Seen > 0));
            lines.Add(
                alive.Fact is null
                    ? new Remark("chapter-never-seen-alive")
                    : new Remark(
                        "chapter-last-seen-alive",
                        new Argument("when", alive.When),
                        new Argument("seen", alive.Fact.Samples.Sum(sample => (long)sample.Seen))
                    )
            );
        }

        if (dead > 0)
        {
            lines.Add(new Remark("chapter-dead", new Argument("number", dead)));
        }

        return new(ChapterCode.Sea, from, until, lines);
    }

    private static Chapter? Settling(ReviewSpan span)
    {
        var seen = span.Facts<SettlementSeen>().Where(told => told.Fact.Number is null or > 0).ToList();
        var returned = span
            .Vessels.SelectMany(vessel => span.Facts<JuvenilesReturned>(vessel.Id, span.From, span.Until))
            .Where(told => span.Vessels.Any(vessel => vessel.Id == told.Fact.From))
            .DistinctBy(told => told.Entry)
            .OrderBy(told => told.When)
            .ToList();
        if (seen.Count == 0 && returned.Count == 0)
        {
            return null;
        }

        var lines = new List<Remark>();
        if (seen.Count > 0)
        {
            var day =
                span.Brood.Crossings.Count > 0 ? Days(span.Brood.Crossings[0].When.Middle, seen[0].When) : 0;
            lines.Add(
                new Remark("chapter-settled", new Argument("when", seen[0].When), new Argument("days", day))
            );
        }

        if (returned.Count > 0)
        {
            lines.Add(
                new Remark(
                    returned.Exists(told => told.Fact.Number is null)
                        ? "chapter-returned-some-unknown"
                        : "chapter-returned",
                    new Argument("moves", returned.Count),
                    new Argument("number", returned.Sum(told => (long)(told.Fact.Number ?? 0)))
                )
            );
        }

        var all = seen.Select(told => told.When).Concat(returned.Select(told => told.When)).ToList();
        return new(ChapterCode.Settling, all.Min(), all.Max(), lines);
    }

    private static Chapter? End(ReviewSpan span)
    {
        if (span.Run.Ended is not { } ended || ended.When.Earliest > span.Outlook.Now)
        {
            return null;
        }

        var lines = new List<Remark>
        {
            new(ended.How.End is RunEnd.Home ? "chapter-home" : "chapter-given-up"),
        };
        if (!string.IsNullOrWhiteSpace(ended.How.Note))
        {
            lines.Add(new Remark("chapter-note", new Argument("reason", ended.How.Note)));
        }

        return new(ChapterCode.End, ended.When.Earliest, null, lines);
    }

    // As exact as a story needs.
    private static double Days(Instant from, Instant until)
    {
        var days = Math.Max(0, (until - from).TotalDays);
        return Math.Round(days, days < 3 ? 1 : 0);
    }
}
