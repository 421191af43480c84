using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Science.Counting;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Population;

namespace Broodtide.Cli.Counting;

/// <summary>How many aliquots a precision needs; and what some aliquots say.</summary>
internal sealed record AliquotsAnswer(
    double WantedCvPercent,
    int? AliquotsNeeded,
    int? AliquotsNeededIfTwiceAsBig,
    double? CvOfOnePercent,
    double? LeastCvOfOnePercent,
    PointsJson? Larvae,
    double? EstimateLarvae,
    double? WaterLitres,
    double? IndexOfDispersion,
    double? ChanceOfVaryingMore,
    double? ChanceOfVaryingLess,
    PointsJson? ClumpingK,
    double? CvPercent,
    double? CvOfTwiceAsManyPercent,
    double? CvOfTwiceAsBigPercent,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Aliquots: how many to take, and what those taken say.</summary>
internal static class AliquotsVerb
{
    private const double UsualWantedPercent = 20;

    public static Command Make()
    {
        var counts = Slot.Option("--counts", "Larvae seen in each aliquot, such as 12,15,9.", "N,N,...");
        var each = Slot.Option(
            "--each",
            "Volume of an aliquot; or one for each, parted by semicolons: \"20 mL; 50 mL\".",
            "VOLUME"
        );
        var of = Slot.Option("--of", "Water in the vessel, or a vessel by its name.", "VOLUME|VESSEL");
        var expect = Slot.Option(
            "--expect",
            "Larvae thought to be in the vessel, before any count.",
            "NUMBER"
        );
        var mean = Slot.Option("--mean", "Larvae in one aliquot on average, instead of --expect.", "NUMBER");
        var wanted = Slot.Option(
            "--wanted",
            "The total right to within this, two times in three; 20 % if left out.",
            "PERCENT"
        );
        var clumping = Slot.Option(
            "--clumping",
            "Clumping k, if known: 1 is strong, 20 hardly any. Else most values are allowed for.",
            "K"
        );
        return new VerbCommand(
            "aliquots",
            "How many aliquots to take for a wanted precision; and, given counts, how many there are in all and what would narrow it.",
            [
                "aliquots --expect 300 --each \"100 mL\" --of \"7 L\" --wanted 25",
                "aliquots --counts 12,15,9 --each \"20 mL\" --of \"10 L\"",
                "aliquots --counts 12,15,9 --each \"250 mL\" --of \"Jar A\" --json",
            ],
            [counts, each, of, expect, mean, wanted, clumping],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var seen = Parts(said.Text(counts), ",;")
                    .Select(text => said.CountOf(text, "counts"))
                    .ToList();
                var volumes = Volumes(said, each);
                var water = Water(said, outlook, of);
                var goal = said.Amount(wanted, Dimension.Share, "%")?.Value ?? UsualWantedPercent;
                var k = Positive(said, clumping);
                var perAliquot = Positive(said, mean);
                var expected = Positive(said, expect);
                Check(said, seen, volumes, water, goal);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                var belief = k is { } known ? ClumpingPrior.Known(known) : ClumpingPrior.Usual;
                if (seen.Count > 0 && water is { } whole)
                {
                    return Counted(sitting, Aliquots(seen, volumes), whole, goal, belief);
                }

                perAliquot ??= volumes.Count == 1 && water is { } all ? expected * (volumes[0] / all) : null;
                return perAliquot is { } average
                    ? Planned(sitting, AliquotPlanning.Need(average, goal / 100, belief.MeanReciprocal), goal)
                    : sitting.NotUnderstood([new Remark("aliquots-needs-more")]);
            }
        );
    }

    private static int Planned(Sitting sitting, AliquotNeed need, double goal)
    {
        var saying = new Saying(sitting.Zone, sitting.Looked.House);
        return sitting.Answer(
            new AliquotsAnswer(
                goal,
                need.Aliquots,
                need.AliquotsIfTwiceAsBig,
                100 * need.CvOfOne,
                100 * need.LeastCvOfOne,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                [saying.Json(need.Limit)]
            ),
            CliJson.Default.AliquotsAnswer,
            page =>
            {
                page.Facts(
                    ("Wanted", $"right to within {Saying.Number(goal)} %, two times in three"),
                    ("Aliquots", Needed(need)),
                    ("One alone", $"is uncertain by {Percent(need.CvOfOne)}")
                );
                page.Line(saying.Of(need.Limit));
            }
        );
    }

    private static int Counted(
        Sitting sitting,
        List<AliquotSeen> aliquots,
        Volume water,
        double goal,
        ClumpingPrior belief
    )
    {
        var sampled = aliquots.Sum(aliquot => aliquot.Volume.Litres);
        if (sampled > water.Litres)
        {
            return sitting.Refuse([
                new Remark(
                    "count-aliquots-exceed-water",
                    new("sampledLitres", sampled),
                    new("waterLitres", water.Litres)
                ),
            ]);
        }

        var saying = new Saying(sitting.Zone, sitting.Looked.House);
        var advice = AliquotAdvices.Of(aliquots, water, belief);
        var seen = aliquots.Sum(aliquot => (double)aliquot.Seen);
        var need =
            seen > 0
                ? AliquotPlanning.Need(seen / aliquots.Count, goal / 100, advice.ReciprocalClumping)
                : null;
        var remarks = advice.Remarks.ToList();
        if (need is not null)
        {
            remarks.Add(need.Limit);
        }

        if (need?.Exact * sampled / aliquots.Count > water.Litres)
        {
            remarks.Add(new Remark("aliquots-count-all"));
        }

        return sitting.Answer(
            new AliquotsAnswer(
                goal,
                need?.Aliquots,
                need?.AliquotsIfTwiceAsBig,
                100 * need?.CvOfOne,
                100 * need?.LeastCvOfOne,
                PointsJson.Of(advice.Larvae),
                advice.Estimate,
                water.Litres,
                advice.Dispersion?.Index,
                advice.Dispersion?.ClumpedChance.Value,
                advice.Dispersion?.RegularChance.Value,
                advice.Clumping is { } k ? PointsJson.Of(k) : null,
                100 * advice.Cv,
                100 * advice.CvOfTwiceAsMany,
                100 * advice.CvOfTwiceAsBig,
                [.. remarks.Select(saying.Json)]
            ),
            CliJson.Default.AliquotsAnswer,
            page =>
            {
                page.Facts(
                    (
                        "Counted",
                        $"{Saying.Number(seen)} in {aliquots.Count} aliquots, {UnitNames.Litres(sampled)} of {UnitNames.Litres(water.Litres)}"
                    ),
                    ("In all", LedgerVerb.Points(ThreeFigures(advice.Larvae), "larvae")),
                    ("Spread", Spread(advice.Dispersion)),
                    (
                        "Precision",
                        advice.Cv is { } cv
                            ? $"{Percent(cv)} now; {Percent(advice.CvOfTwiceAsMany)} with twice as many aliquots, {Percent(advice.CvOfTwiceAsBig)} with aliquots of twice the size"
                            : null
                    ),
                    ($"For {Saying.Number(goal)} %", need is null ? null : Needed(need))
                );
                foreach (var remark in remarks)
                {
                    page.Line(saying.Of(remark));
                }
            }
        );
    }

    private static string Needed(AliquotNeed need) =>
        $"{need.Aliquots} of this size, or {need.AliquotsIfTwiceAsBig} of twice the size";

    private static string? Spread(DispersionIndex? index) =>
        index is null
            ? null
            : $"variance {Saying.Number(index.Index)} of the mean; by even mixing more in {Saying.Percent(index.ClumpedChance.Value)}, less in {Saying.Percent(index.RegularChance.Value)} of cases";

    // More figures than three would say more than any count knows.
    private static Interval ThreeFigures(Interval larvae) =>
        Interval.FromPoints(ThreeFigures(larvae.Low), ThreeFigures(larvae.Middle), ThreeFigures(larvae.High));

    private static double ThreeFigures(double larvae)
    {
        var last = Math.Pow(10, Math.Max(0, Math.Floor(Math.Log10(Math.Max(1, larvae))) - 2));
        return Math.Round(larvae / last) * last;
    }

    private static string Percent(double? fraction) => $"{Saying.Number(Math.Round(100 * fraction ?? 0))} %";

    private static string[] Parts(string? text, string signs) =>
        (text ?? "").Split(
            signs.ToCharArray(),
            StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
        );

    private static List<Volume> Volumes(Said said, Slot slot) =>
        [
            .. Parts(said.Text(slot), ";")
                .Select(text => said.AmountOf(text, slot.Name, [Dimension.Volume]))
                .Where(typed => typed is not null)
                .Select(typed => typed.AsVolume() ?? default),
        ];

    // A volume begins with a figure; anything else is the name of a vessel.
    private static Volume? Water(Said said, Outlook outlook, Slot slot)
    {
        if (said.Text(slot) is not { Length: > 0 } text)
        {
            return null;
        }

        if (char.IsAsciiDigit(text.TrimStart()[0]))
        {
            return said.Volume(slot).AsVolume();
        }

        if (said.Vessel(slot) is not { } vessel)
        {
            return null;
        }

        if (outlook.LedgerOf(vessel) is { } ledger)
        {
            return Volume.FromLitres(Math.Max(0, ledger.Litres.Middle));
        }

        said.Add(new Remark("vessel-holds-no-water", new Argument("vessel", vessel)));
        return null;
    }

    private static double? Positive(Said said, Slot slot)
    {
        if (said.Number(slot) is not { } number)
        {
            return null;
        }

        if (number is > 0 and <= 1e9)
        {
            return number;
        }

        said.Add(Impossible(slot.Name, said.TheText(slot), 1e9));
        return null;
    }

    private static void Check(Said said, List<int> seen, List<Volume> volumes, Volume? water, double goal)
    {
        if (goal is not (> 0.1 and <= 1000))
        {
            said.Add(Impossible("wanted", $"{Saying.Number(goal)} %", 1000));
        }

        foreach (var count in seen.Where(count => count is < 0 or > 1_000_000))
        {
            said.Add(Impossible("counts", Saying.Number(count), 1e6));
        }

        foreach (var volume in volumes.Where(volume => volume.Litres is not (>= 1e-6 and <= 1e6)))
        {
            said.Add(Impossible("each", UnitNames.Litres(volume.Litres), 1e6));
        }

        if (water is { Litres: not (>= 1e-6 and <= 1e6) } none)
        {
            said.Add(Impossible("of", UnitNames.Litres(none.Litres), 1e6));
        }

        if (seen.Count > 0 && said.Wrong.Count == 0)
        {
            if (volumes.Count == 0 || water is null)
            {
                said.Add(new Remark("aliquots-counts-need-volumes"));
            }
            else if (volumes.Count > 1 && volumes.Count != seen.Count)
            {
                said.Add(
                    new Remark(
                        "aliquots-volumes-differ",
                        new("counts", seen.Count),
                        new("volumes", volumes.Count)
                    )
                );
            }
        }
    }

    private static Remark Impossible(string field, string typed, double highest) =>
        new(
            "number-impossible",
            new("field", field),
            new("typed", typed),
            new("lowest", 0.0),
            new("highest", highest)
        );

    private static List<AliquotSeen> Aliquots(List<int> seen, List<Volume> volumes) =>
        [.. seen.Select((count, i) => new AliquotSeen(count, volumes.Count == 1 ? volumes[0] : volumes[i]))];
}
