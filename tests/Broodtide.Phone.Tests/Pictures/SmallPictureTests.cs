using Broodtide.Phone.Pictures;

namespace Broodtide.Phone.Tests.Pictures;

public sealed class SmallPictureTests
{
    [Theory]
    [InlineData(320)]
    [InlineData(390)]
    [InlineData(768)]
    [InlineData(1280)]
    public void No_small_picture_lets_words_overlap_or_leaves_its_place(double width)
    {
        foreach (var (_, picture) in SmallPictureCases.All(width))
        {
            Soundness.Check(picture, strict: true);
        }
    }

    [Fact]
    public void Each_night_has_its_per_cent_and_the_day_to_isolate_by_stands_over_them()
    {
        var words = Words(HatchNightsLayout.Lay(Spoken.Pictures, SmallPictureCases.Nights(11), 350));
        Assert.Contains("isolate by", words);
        Assert.Contains("18", words);
        Assert.Contains("chance, each night, %", words);
    }

    [Fact]
    public void A_reading_that_does_not_fit_has_a_magenta_ring_and_its_words()
    {
        var picture = LedgerLayout.Lay(Spoken.Pictures, SmallPictureCases.Ledger(), 390);
        Assert.Single(picture.Shapes, shape => shape.Class == "pic-mind-ring");
        Assert.Contains("does not fit", Words(picture));
        Assert.Contains("not saltier than 34", Words(picture));
        Assert.Contains("33", Words(picture));
    }

    [Fact]
    public void The_forbidden_side_of_a_salty_limit_lies_below_it()
    {
        var picture = LedgerLayout.Lay(Spoken.Pictures, SmallPictureCases.Ledger(), 390);
        var limit = Soundness.Points(picture.Shapes.Single(shape => shape.Class == "pic-limit"))[0].Y;
        var forbidden = (BoxShape)picture.Shapes.Single(shape => shape.Class == "pic-forbidden");
        Assert.Equal(limit, forbidden.Box.Top, 0.06);
    }

    [Fact]
    public void The_disc_of_the_stair_stands_at_now()
    {
        var picture = CrossingStairLayout.Lay(Spoken.Pictures, SmallPictureCases.Stair(3.3), 390);
        var disc = picture.Shapes.OfType<DiscShape>().Single();
        Assert.Equal(34 + (3.3 / 14 * (390 - 44)), disc.X, 0.01);
        Assert.Contains("16.5", Words(picture));
    }

    [Fact]
    public void The_strip_of_stages_is_as_wide_as_their_shares_and_names_those_with_room()
    {
        var picture = SmallPictureCases.Stages(350, 0.02, 0.56, 0.35, 0.07);
        var boxes = picture.Shapes.OfType<BoxShape>().Select(shape => shape.Box).ToList();
        Assert.Equal(4, boxes.Count);
        Assert.Equal(0.56 * 350, boxes[1].Right - boxes[1].Left, 1e-6);
        Assert.Equal(350, boxes[^1].Right, 1e-6);
        Assert.Equal(["Z2", "56 %", "Z3", "35 %"], Words(picture).Take(4));
        Assert.Equal(
            "Stages now: Z1 2 per cent, Z2 98 per cent.",
            Spoken.Speech.Of([new("Z1", "1", false), new("Z2", "2", false)], [0.02, 0.98])
        );
    }

    [Fact]
    public void Each_small_picture_is_told_in_words()
    {
        Assert.Contains(
            "Isolate by the evening of",
            Spoken.Speech.Of(SmallPictureCases.Nights(11)),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "does not fit",
            Spoken.Speech.Of(SmallPictureCases.Ledger()),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "Now after step 1.",
            Spoken.Speech.Of(SmallPictureCases.Stair(3.3)),
            StringComparison.Ordinal
        );
    }

    private static List<string> Words(Picture picture) =>
        [.. picture.Shapes.OfType<WordShape>().Select(word => word.Text)];
}
