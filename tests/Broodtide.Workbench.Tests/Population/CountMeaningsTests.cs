using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using CsCheck;

namespace Broodtide.Workbench.Tests.Population;

public sealed class CountMeaningsTests
{
    private static readonly VesselId Jar = new(new Guid("0197a000-0000-7000-8000-000000000001"));

    private static readonly Volume FourLitres = Volume.FromLitres(4);

    private static readonly Gen<CountMade> Counts = Gen.Select(
        Gen.Enum<CountMethod>(),
        Gen.Select(
            Gen.OneOf(Gen.Int[-3, 40], Gen.Int[0, 3000], Gen.Const(int.MaxValue)),
            Gen.OneOf(Gen.Double[0.001, 400], Gen.Const(-5.0), Gen.Const(0.0), Gen.Const(1e12)),
            (seen, millilitres) =>
                new Aliquot(
                    seen,
                    millilitres > 399 && millilitres < 1000 ? null : TypedNumber.Of(millilitres, "mL")
                )
        ).Array[0, 6],
        Gen.Bool,
        (method, samples, dark) => new CountMade(Jar, method, samples, InDark: dark)
    );

    private static CountMade Aliquots(params (int Seen, double Millilitres)[] samples) =>
        new(
            Jar,
            CountMethod.Aliquot,
            [.. samples.Select(s => new Aliquot(s.Seen, TypedNumber.Of(s.Millilitres, "mL")))]
        );

    [Fact]
    public void Ten_seen_in_a_quarter_litre_are_many_more_in_the_jar()
    {
        // Garwood 1936 gives 4.80 to 18.39 for a count of ten (95 %); with clumping unknown the jar may hold more.
        var meaning = CountMeanings.Of(Aliquots((4, 125), (6, 125)), FourLitres);
        var larvae = meaning.Larvae!.Value;
        Assert.InRange(larvae.Middle, 155, 185);
        Assert.InRange(larvae.Low, 4.80 * 16, 130);
        Assert.InRange(larvae.High, 240, 420);
        Assert.Equal(CountBasis.Aliquots, meaning.Basis);
        Assert.NotNull(meaning.Clumping);
        Assert.Empty(meaning.Remarks);
    }

    [Fact]
    public void Aliquots_of_unknown_water_tell_no_number_and_say_why()
    {
        var meaning = CountMeanings.Of(Aliquots((4, 125), (6, 125)), null);
        Assert.Null(meaning.Larvae);
        Assert.Equal(10, meaning.Seen);
        Assert.Equal("count-water-unknown", Assert.Single(meaning.Remarks).Code);
    }

    [Fact]
    public void An_aliquot_larger_than_the_vessel_tells_no_number_but_a_rounded_one_does()
    {
        var meaning = CountMeanings.Of(Aliquots((4, 5000)), FourLitres);
        Assert.Null(meaning.Larvae);
        var remark = Assert.Single(meaning.Remarks);
        Assert.Equal("count-aliquots-exceed-water", remark.Code);
        Assert.Equal(5.0, remark["sampledLitres"]);
        Assert.Equal(Interval.Exactly(4), CountMeanings.Of(Aliquots((4, 4040)), FourLitres).Larvae);
    }

    [Fact]
    public void An_aliquot_without_volume_is_left_out_and_named()
    {
        var count = new CountMade(
            Jar,
            CountMethod.Aliquot,
            [new Aliquot(4, TypedNumber.Of(125, "mL")), new Aliquot(50)]
        );
        var meaning = CountMeanings.Of(count, FourLitres);
        Assert.Equal(54, meaning.Seen);
        Assert.True(meaning.Larvae!.Value.Middle < 300);
        Assert.Equal("count-aliquot-without-volume", Assert.Single(meaning.Remarks).Code);
    }

    [Fact]
    public void None_seen_leaves_room_for_some_by_every_method()
    {
        foreach (var method in Enum.GetValues<CountMethod>())
        {
            var meaning = CountMeanings.Of(
                new CountMade(Jar, method, [new Aliquot(0, TypedNumber.Of(100, "mL"))]),
                FourLitres
            );
            Assert.True(meaning.Larvae!.Value.High > 0, $"{method} {meaning.Larvae}");
            Assert.Contains(meaning.Remarks, remark => remark.Code == "count-none-seen");
        }
    }

    [Fact]
    public void A_look_sees_the_fewer_the_shorter_it_is()
    {
        Interval Larvae(CountMethod method, bool? dark = null) =>
            CountMeanings.Of(new CountMade(Jar, method, [new Aliquot(60)], InDark: dark), null).Larvae!.Value;
        var (full, photo) = (Larvae(CountMethod.Full), Larvae(CountMethod.Photo));
        var (dark, lit, glance) = (
            Larvae(CountMethod.Beam, true),
            Larvae(CountMethod.Beam),
            Larvae(CountMethod.Glance)
        );
        Assert.True(full.Middle < photo.Middle && photo.Middle < dark.Middle);
        Assert.True(dark.Middle < lit.Middle && lit.Middle < glance.Middle);
        Assert.True(full.Width < photo.Width && photo.Width < dark.Width && lit.Width < glance.Width);
        Assert.True(full.Low >= 60);
        // Keepers report that a glance may see a tenth.
        Assert.True(glance.High > 600);
    }

    [Fact]
    public void A_keepers_own_double_counts_take_the_place_of_practice()
    {
        var look = new CountMade(Jar, CountMethod.Beam, [new Aliquot(60)]);
        var own = CountMeanings.Of(look, null, BetaBelief.Flat.After(new Tally(150, 200)));
        var practice = CountMeanings.Of(look, null);
        Assert.Equal(80, own.Larvae!.Value.Middle, 2.0);
        Assert.True(own.Larvae.Value.Width < practice.Larvae!.Value.Width);
        Assert.DoesNotContain(own.Remarks, remark => remark.Code == "count-seen-share-by-practice");
        Assert.Contains(practice.Remarks, remark => remark.Code == "count-seen-share-by-practice");
    }

    [Fact]
    public void Whatever_was_written_the_answer_is_finite_or_says_why_there_is_none() =>
        Gen.Select(Counts, Gen.Double[-5, 100])
            .Sample(
                (count, litres) =>
                {
                    var meaning = CountMeanings.Of(count, litres >= 0 ? Volume.FromLitres(litres) : null);
                    Assert.True(meaning.Larvae is not null || meaning.Remarks.Count > 0);
                    if (meaning.Larvae is { } larvae)
                    {
                        Assert.True(larvae.Low >= 0 && larvae.High < 1e13);
                        Assert.True(larvae.Low <= larvae.Middle && larvae.Middle <= larvae.High);
                    }
                }
            );

    [Fact]
    public void A_number_that_was_said_keeps_its_place()
    {
        Assert.Equal(140, SaidNumber.Of(140, CountMethod.Glance).Middle);
        Assert.True(SaidNumber.Of(140, CountMethod.Full).Width < SaidNumber.Of(140, null).Width);
        Assert.True(SaidNumber.Of(0, CountMethod.Full).High > 0);
        Assert.Equal(SaidNumber.Of(0, null), SaidNumber.Of(-4, null));
    }
}
