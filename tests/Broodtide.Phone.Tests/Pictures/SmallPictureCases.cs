using Broodtide.Phone.Pictures;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.TideLine;
using static Broodtide.Phone.Tests.Pictures.RunBuilder;

namespace Broodtide.Phone.Tests.Pictures;

/// <summary>Invented records for the small pictures.</summary>
internal static class SmallPictureCases
{
    public static IReadOnlyList<(string Name, Picture Picture)> All(double width) =>
        [
            ("hatch-nights", HatchNightsLayout.Lay(Spoken.Pictures, Nights(11), width - 40)),
            ("hatch-nights-many", HatchNightsLayout.Lay(Spoken.Pictures, Nights(30), width - 40)),
            ("hatch-nights-one", HatchNightsLayout.Lay(Spoken.Pictures, Nights(1), width - 40)),
            (
                "hatch-nights-none",
                HatchNightsLayout.Lay(Spoken.Pictures, new([], null, Evening(0)), width - 40)
            ),
            ("ledger", LedgerLayout.Lay(Spoken.Pictures, Ledger(), width)),
            (
                "ledger-empty",
                LedgerLayout.Lay(
                    Spoken.Pictures,
                    Ledger() with
                    {
                        Salinity = [],
                        Readings = [],
                        TopUps = [],
                    },
                    width
                )
            ),
            (
                "ledger-fresh-limit",
                LedgerLayout.Lay(Spoken.Pictures, Ledger() with { NotFresherThanPpt = 31 }, width)
            ),
            (
                "ledger-two-months",
                LedgerLayout.Lay(Spoken.Pictures, Ledger() with { From = Day(-45) }, width)
            ),
            ("culture", CultureLayout.Lay(Spoken.Pictures, Culture(isFilm: false), width)),
            ("culture-film", CultureLayout.Lay(Spoken.Pictures, Culture(isFilm: true), width)),
            (
                "culture-uncounted",
                CultureLayout.Lay(Spoken.Pictures, Culture(isFilm: false) with { Counts = [] }, width)
            ),
            ("stair", CrossingStairLayout.Lay(Spoken.Pictures, Stair(3.3), width)),
            ("stair-before", CrossingStairLayout.Lay(Spoken.Pictures, Stair(null), width)),
            ("stair-many", CrossingStairLayout.Lay(Spoken.Pictures, Stair(8, 12), width)),
            ("stair-home", CrossingStairLayout.Lay(Spoken.Pictures, Homeward(), width)),
            ("stages-now", Stages(width - 40, 0.02, 0.56, 0.35, 0.07)),
            ("stages-now-one", Stages(width - 40, 0, 0, 1)),
            ("stages-now-many", Stages(width - 40, [.. Enumerable.Repeat(0.1, 10)])),
            ("stages-now-settled", Stages(width - 40, 0, 0, 0, 0, 0, 0, 0, 0.2, 0.3, 0.5)),
        ];

    public static CultureRecord Culture(bool isFilm)
    {
        var size = isFilm ? 0.01 : 1e5;
        CulturePointAt At(int day) =>
            new(
                Day(day),
                Broodtide.Units.Interval.FromPoints(
                    size * Math.Exp((0.2 * (day + 12)) - 0.4),
                    size * Math.Exp(0.2 * (day + 12)),
                    size * Math.Exp((0.2 * (day + 12)) + 0.4)
                )
            );
        return new()
        {
            VesselName = "Green jar",
            Now = Day(0),
            Zone = Zone,
            From = Day(-12),
            To = Day(10),
            Points = [.. Enumerable.Range(-12, 23).Select(At)],
            Counts = [new(Day(-9), 2 * size), new(Day(-5), 4.2 * size), new(Day(-1), 9 * size)],
            Ready = isFilm ? 0.5 : 5e5,
            IsFilm = isFilm,
        };
    }

    public static Picture Stages(double width, params double[] shares) =>
        StagesNowLayout.Lay(
            Spoken.Pictures,
            [
                .. shares.Select(
                    (_, place) =>
                        place == 9
                            ? new TideStage("PL", "PL", true)
                            : new TideStage($"Z{place + 1}", $"{place + 1}", false)
                ),
            ],
            shares,
            width
        );

    public static HatchNightsRecord Nights(int count)
    {
        var middle = (count - 1) / 2.0;
        var weights = Enumerable
            .Range(0, count)
            .Select(i => Math.Exp(-0.5 * Math.Pow((i - middle) / Math.Max(1, count / 5.0), 2)))
            .ToList();
        return new(
            [.. weights.Select((weight, i) => new TideNight(Evening(i), weight / weights.Sum(), null))],
            count > 2 ? Evening(2) : null,
            Evening(0)
        );
    }

    public static LedgerRecord Ledger() =>
        new()
        {
            VesselName = "Jar A",
            Now = Day(8.5),
            Zone = Zone,
            From = Day(-0.2),
            To = Day(11),
            Salinity =
            [
                Row(-0.2, 32.2, 32.5, 32.9),
                Row(2.3, 33.4, 33.8, 34.2),
                Row(2.3, 31.5, 31.9, 32.3),
                Row(5.6, 33.2, 33.7, 34.1),
                Row(5.6, 31.6, 32, 32.4),
                Row(8.5, 33.3, 33.6, 33.9),
                Row(11, 34.2, 34.9, 35.6),
            ],
            NotSaltierThanPpt = 34,
            NotFresherThanPpt = 25,
            Readings =
            [
                new(Day(1), About(32.6, 33.1, 33.6), true),
                new(Day(3), About(31.7, 32.2, 32.7), true),
                new(Day(6), About(29.9, 30.4, 30.9), false),
                new(Day(8.3), About(32.8, 33.3, 33.8), true),
            ],
            TopUps = [new(Day(2.3), 390), new(Day(5.6), 440)],
        };

    public static CrossingStairRecord Stair(double? now, int steps = 4)
    {
        var list = Enumerable
            .Range(0, steps)
            .Select(i => new StairStep(1 + (i * 11.0 / steps), About(0, 33 * (1 - Math.Pow(0.5, i + 1)), 33)))
            .Select(step =>
                step with
                {
                    Ppt = About(step.Ppt.Middle - 0.3, step.Ppt.Middle, step.Ppt.Middle + 0.3),
                }
            );
        return new(0, [.. list], 14, now, new(1, 17));
    }

    public static CrossingStairRecord Homeward() =>
        new(
            32,
            [new(2, About(15.5, 16, 16.5)), new(8, About(7.6, 8, 8.4)), new(15, About(0, 0.2, 0.4))],
            20,
            9,
            new(1, 17)
        );
}
