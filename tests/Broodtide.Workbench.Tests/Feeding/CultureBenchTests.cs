using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Recording;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Workbench.Tests.Feeding;

public sealed class CultureBenchTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 18, 0);
    private static readonly VesselId Green = new(new Guid("0195557c-0000-7000-8000-000000000002"));
    private int _ids = 100;

    private Guid NewId() => new($"0195557c-0000-7000-8000-{++_ids:x12}");

    private Outlook Look(double nowDay, params (double Day, Fact Fact)[] told)
    {
        var replica = new ReplicaId(NewId());
        var entries = new List<Entry>();
        foreach (var (day, fact) in told.OrderBy(pair => pair.Day))
        {
            var at = Start + Duration.FromSeconds(Math.Round(day * 86400));
            var keeper = new Keeper(new Author("Ada"), new FakeClock(at), DateTimeZone.Utc, NewId);
            var salt = Digest.Of(BitConverter.GetBytes(entries.Count)).ToBytes()[..16];
            entries.Add(
                keeper
                    .Write(fact)
                    .Seal(replica, entries.Count + 1, entries.Count > 0 ? entries[^1].Digest : null, salt)
            );
        }

        return Outlook.Of(
            Account.Of(entries),
            Start + Duration.FromSeconds(nowDay * 86400),
            DateTimeZone.Utc
        );
    }

    private (double Day, Fact Fact)[] Jar(params (double Day, Fact Fact)[] more) =>
        [
            (-1, new VesselSetUp(Green, "Green jar", VesselRole.AlgaeCulture, TypedNumber.Of(2, "L"))),
            (
                0,
                new VesselFilled(
                    Green,
                    new(NewId()),
                    TypedNumber.Of(2, "L"),
                    TypedNumber.Of(30, UnitCode.PracticalSalinity),
                    TypedNumber.Of(24, "Cel")
                )
            ),
            (
                0.01,
                new CultureDescribed(
                    Green,
                    CultureKind.TetraselmisChui,
                    Inoculum: TypedNumber.Of(400, "mL"),
                    InoculumDensity: TypedNumber.Of(1e6, "{cells}/mL")
                )
            ),
            .. more,
        ];

    // Cells in four large squares of Neubauer, a ten-thousandth of a mL each.
    private static (double, Fact) Count(double day, double perMillilitre) =>
        (
            day,
            new CellsCounted(
                Green,
                ChamberKind.Neubauer,
                [new((int)Math.Round(perMillilitre * 4e-4 / 4), 4)],
                4
            )
        );

    [Fact]
    public void A_vessel_without_a_description_is_no_culture()
    {
        var outlook = Look(
            2,
            (0, new VesselSetUp(Green, "Green jar", VesselRole.AlgaeCulture, TypedNumber.Of(2, "L")))
        );
        Assert.Empty(outlook.Cultures);
        Assert.Null(outlook.CultureOf(Green));
    }

    [Fact]
    public void Without_counts_nothing_is_harvested_and_the_start_is_that_of_the_starter()
    {
        var culture = Look(0.02, Jar()).CultureOf(Green)!;
        // 400 mL of a million in 2 L.
        Assert.InRange(culture.Density.Middle, 1.8e5, 2.2e5);
        Assert.Null(culture.Harvest);
        Assert.Contains(culture.Remarks, remark => remark.Code == "culture-never-counted");
    }

    [Fact]
    public void Growth_is_learned_from_the_counts_and_a_harvest_is_told_that_lasts()
    {
        var culture = Look(
                8,
                Jar([.. Enumerable.Range(1, 4).Select(i => Count(2 * i, Logistic(2e5, 2e6, 0.45, 2 * i)))])
            )
            .CultureOf(Green)!;
        Assert.InRange(culture.RatePerDay.Middle, 0.35, 0.6);
        Assert.True(culture.Density.Contains(Logistic(2e5, 2e6, 0.45, 8)));
        var harvest = culture.Harvest!;
        Assert.InRange(harvest.LastingShare.Low, 0.01, harvest.LastingShare.Middle);
        Assert.Equal(harvest.LastingShare.Low * 2, harvest.Today.Litres, 0.05);
        Assert.Empty(culture.Warnings);
        // Sure of more with four counts than with one.
        var one = Look(8, Jar(Count(2, Logistic(2e5, 2e6, 0.45, 2)))).CultureOf(Green)!;
        Assert.True(culture.RatePerDay.Width < one.RatePerDay.Width);
    }

    [Fact]
    public void Fresh_medium_thins_it_by_the_volumes_of_the_ledger()
    {
        (double, Fact) counted = Count(4, 8e5);
        var before = Look(4.05, Jar(counted)).CultureOf(Green)!;
        var after = Look(
                4.15,
                Jar(
                    counted,
                    (4.1, new CultureHarvested(Green, TypedNumber.Of(1, "L"))),
                    (
                        4.12,
                        new WaterMoved(
                            To: Green,
                            Volume: TypedNumber.Of(1, "L"),
                            Salinity: TypedNumber.Of(30, UnitCode.PracticalSalinity)
                        )
                    )
                )
            )
            .CultureOf(Green)!;
        Assert.InRange(after.Density.Middle / before.Density.Middle, 0.47, 0.56);
        // It was harvested within the day already.
        Assert.True(after.Harvest is null or { Today.Litres: 0 });
    }

    [Fact]
    public void A_count_that_falls_warns_and_forbids_the_harvest()
    {
        var outlook = Look(8, Jar(Count(2, 4e5), Count(4, 8e5), Count(6, 1.2e6), Count(8, 2.5e5)));
        var culture = outlook.CultureOf(Green)!;
        Assert.Contains(culture.Warnings, remark => remark.Code == "culture-count-fell");
        Assert.Null(culture.Harvest);
        Assert.Contains(outlook.Due.Items, item => item.Action.Code == ActionCodes.TendCulture);
    }

    [Theory]
    [InlineData(WaterLook.Milky, "culture-looks-bad")]
    [InlineData(WaterLook.Brown, "culture-looks-bad")]
    [InlineData(WaterLook.Clear, "culture-went-clear")]
    [InlineData(WaterLook.DeepGreen, null)]
    public void Colour_warns_of_what_no_count_has_seen(WaterLook look, string? code)
    {
        var culture = Look(5, Jar(Count(2, 6e5), Count(4, 9e5), (4.5, new VesselLookedAt(Green, look))))
            .CultureOf(Green)!;
        Assert.Equal(code, culture.Warnings is [var first, ..] ? first.Code : null);
    }

    [Fact]
    public void An_old_culture_that_nobody_thinned_warns()
    {
        var culture = Look(20, Jar(Count(18, 1e6))).CultureOf(Green)!;
        Assert.Contains(culture.Warnings, remark => remark.Code == "culture-old");
    }

    [Fact]
    public void An_emptied_culture_is_none()
    {
        Assert.Empty(Look(5, Jar((4, new VesselEmptied(Green)))).Cultures);
    }

    [Fact]
    public void A_film_is_told_as_cover_and_when_it_is_thick_enough()
    {
        var outlook = Look(
            8,
            (0, new VesselSetUp(Green, "Film tray", VesselRole.AlgaeCulture, TypedNumber.Of(2, "L"))),
            (0.1, new CultureDescribed(Green, CultureKind.FilmDiatoms)),
            (8, new VesselLookedAt(Green, Film: FilmCover.Thin))
        );
        var culture = outlook.CultureOf(Green)!;
        Assert.True(culture.IsFilm);
        Assert.InRange(culture.Density.Middle, 0.03, 0.4);
        Assert.False(culture.Ready.IsReady);
        Assert.True(culture.Ready.Earliest < culture.Ready.Middle);
        Assert.Null(culture.Harvest);
    }

    [Fact]
    public void The_pieces_give_what_the_whole_gives()
    {
        var told = Jar(Count(2, 4e5), Count(4, 8e5));
        var whole = Look(5, told);
        var pieces = Look(5, told);
        foreach (var step in pieces.Steps())
        {
            step();
        }

        Assert.Equal(whole.CultureOf(Green)!.Density, pieces.CultureOf(Green)!.Density);
        Assert.Equal(
            whole.CultureOf(Green)!.Harvest!.Today.Litres,
            pieces.CultureOf(Green)!.Harvest!.Today.Litres,
            1e-12
        );
    }

    private static double Logistic(double first, double last, double rate, double days) =>
        last / (1 + ((last - first) / first * Math.Exp(-rate * days)));
}
