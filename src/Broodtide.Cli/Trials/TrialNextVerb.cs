using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Science.Statistics;
using Broodtide.Science.Trials;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Species;
using Broodtide.Workbench.Trials;

namespace Broodtide.Cli.Trials;

/// <summary>What salinity and temperature to try next.</summary>
internal static class TrialNextVerb
{
    // How far salinity and temperature must change for the odds to be another matter, and how far shares go: assumptions.
    private const double SalinityLength = 6;
    private const double TemperatureLength = 3;
    private const double Spread = 1.5;
    private const double VesselSpread = 0.5;

    public static VerbCommand Make()
    {
        var tried = Slot.Options(
            "--tried",
            "A vessel that was tried: salinity, temperature, and how many of how many, such as 30,25,12/40.",
            "S,T,N/M"
        );
        var control = Slot.Option(
            "--control",
            "The usual treatment, kept in every round: salinity,temperature; needed.",
            "S,T"
        );
        var vessels = Slot.Option(
            "--vessels",
            "Vessels in the round, the control among them; 4 if left out.",
            "NUMBER"
        );
        var larvae = Slot.Option("--larvae", "Larvae in each vessel; 40 if left out.", "NUMBER");
        var usual = Slot.Option(
            "--usual",
            "The share expected before anything was tried; 30% if left out.",
            "SHARE"
        );
        var species = Slot.Option(
            "--species",
            "The species whose ranges hold; that of the house if left out.",
            "SPECIES"
        );
        return new(
            "next",
            "What salinity and temperature to try in the next round, one control kept: where most is to be gained, by what was tried and how unsure the rest is. It is a search and no test.",
            [
                "trial next --control 30,25",
                "trial next --control 30,25 --tried 30,25,12/40 --tried 20,25,25/40 --vessels 4 --json",
            ],
            [tried, control, vessels, larvae, usual, species],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var points = said.Texts(tried)
                    .Select(text => Point(said, text))
                    .OfType<TriedPoint>()
                    .ToList();
                var kept = said.Text(control) is { } typed ? Pair(said, "control", typed) : null;
                if (said.Text(control) is null)
                {
                    said.Add(new Remark("option-needed", new Argument("field", "control")));
                }

                var (many, each) = (said.Count(vessels) ?? 4, said.Count(larvae) ?? 40);
                Within(said, "vessels", many, 2, 20);
                Within(said, "larvae", each, 1, 100_000);
                var share = TrialSlots.Share(said, usual) ?? Probability.FromFraction(0.3);
                if (said.Wrong.Count > 0 || kept is not { } usually)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var profile = outlook.Profiles.Of(said.Text(species));
                var (works, warm) = (
                    profile.LarvalSalinityCompleting,
                    profile.Find(QuantityCodes.LarvalTemperature)!
                );
                // Nothing is tried where keepers lose larvae.
                var losses = profile.Find(QuantityCodes.LarvalTemperatureLosses)!.Value!.Value;
                var round = NextTreatments.Of(
                    points,
                    new(
                        Probability.FromFraction(Math.Clamp(share.Value, 0.01, 0.99)),
                        Spread,
                        SalinityLength,
                        TemperatureLength,
                        VesselSpread
                    ),
                    Range(works.Low.Practical, works.High.Practical),
                    Range(warm.Low!.Value, Math.Min(warm.High!.Value, losses)),
                    usually,
                    many,
                    each
                );
                var answer = new TrialNextAnswer(
                    [.. round.Treatments.Select(Json)],
                    Json(round.Best),
                    round.WorthAnother,
                    [.. round.Remarks.Select(saying.Json)]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.TrialNextAnswer,
                    page =>
                    {
                        page.Heading("The next round")
                            .Table(
                                ["", "salinity", "temperature", "share believed there", "expected gain"],
                                answer.Treatments.Select(it =>
                                    (IReadOnlyList<string>)
                                        [
                                            it.Control ? "control" : "try",
                                            $"{Saying.Number(it.First)} ppt",
                                            $"{Saying.Number(it.Second)} °C",
                                            Points(it.Share),
                                            it.Control ? "" : Saying.Number(Math.Round(it.Gain, 2)),
                                        ]
                                )
                            );
                        if (points.Count > 0)
                        {
                            page.Line(
                                $"Believed best now: {Saying.Number(answer.Best.First)} ppt and {Saying.Number(answer.Best.Second)} °C, {Points(answer.Best.Share)}."
                            );
                        }

                        foreach (var remark in round.Remarks)
                        {
                            page.Line(saying.Of(remark));
                        }
                    }
                );
            }
        );
    }

    private static TriedRange Range(double low, double high) => new(low, high, (int)Math.Round(high - low));

    private static NextTreatmentJson Json(NextTreatment it) =>
        new(it.First, it.Second, PointsJson.Of(it.Share), it.Gain, it.IsControl);

    private static string Points(PointsJson share) =>
        $"{Saying.Percent(share.Middle)} ({Saying.Percent(share.Low)} to {Saying.Percent(share.High)})";

    private static void Within(Said said, string field, int value, int lowest, int highest)
    {
        if (value < lowest || value > highest)
        {
            said.Add(
                new Remark(
                    "trial-number-out",
                    new("field", field),
                    new("typed", value),
                    new("lowest", lowest),
                    new("highest", highest)
                )
            );
        }
    }

    private static (double First, double Second)? Pair(Said said, string field, string text)
    {
        var parts = text.Split(',');
        if (parts.Length != 2)
        {
            said.Add(new Remark("trial-point-not-read", new("field", field), new("typed", text)));
            return null;
        }

        var (one, other) = (NumberText.Parse(parts[0], field), NumberText.Parse(parts[1], field));
        return said.Take(one) && said.Take(other) ? (one.Value.Value, other.Value.Value) : null;
    }

    private static TriedPoint? Point(Said said, string text)
    {
        var at = text.LastIndexOf(',');
        var counts = at < 0 ? [] : text[(at + 1)..].Split('/');
        if (
            at < 0
            || counts.Length != 2
            || !int.TryParse(counts[0], out var some)
            || !int.TryParse(counts[1], out var all)
            || some < 0
            || all < 1
            || some > all
        )
        {
            said.Add(new Remark("trial-point-not-read", new("field", "tried"), new("typed", text)));
            return null;
        }

        return Pair(said, "tried", text[..at]) is { } pair
            ? new TriedPoint(pair.First, pair.Second, new Tally(some, all))
            : null;
    }
}
