using Broodtide.Science.Imaging;

namespace Broodtide.Photos.Tests;

/// <summary>Where marks are drawn and where nothing is.</summary>
public sealed class MarkedPictureTests
{
    public MarkedPictureTests() => Painted.Required();

    [Fact]
    public void A_ring_is_drawn_about_its_place_and_the_rest_stays_as_it_was()
    {
        var marked = Drawn([new(30, 20, 8)]);
        Assert.True(IsInked(marked, 38, 20));
        Assert.True(IsInked(marked, 30, 12));
        Assert.False(IsInked(marked, 30, 20));
        Assert.Equal(100, Grey(marked, 60, 40));
    }

    [Fact]
    public void A_mark_added_has_a_cross_and_one_left_out_has_gaps()
    {
        Assert.True(IsInked(Drawn([new(30, 20, 8, MarkLook.Added)]), 30, 20));
        Assert.True(
            Inked(Drawn([new(30, 20, 12, MarkLook.LeftOut)])) < 0.8 * Inked(Drawn([new(30, 20, 12)]))
        );
    }

    [Fact]
    public void A_line_goes_from_its_beginning_to_its_end()
    {
        var png = MarkedPicture.Png(Ground(), [], [new(5, 10, 50, 10)]);
        var marked = PictureFile.Decode(png).Value;
        Assert.True(IsInked(marked, 5, 10) && IsInked(marked, 49, 10));
        Assert.False(IsInked(marked, 58, 10));
    }

    private static Picture Drawn(IReadOnlyCollection<RingMark> rings) =>
        PictureFile.Decode(MarkedPicture.Png(Ground(), rings)).Value;

    private static Picture Ground()
    {
        var colours = new byte[4 * 64 * 48];
        Array.Fill(colours, (byte)100);
        return new(new GridShape(64, 48), colours);
    }

    private static byte Grey(Picture picture, int x, int y) =>
        (byte)picture.ToGrey()[(y * picture.Shape.Across) + x];

    // The ground is grey, the ink is not.
    private static bool IsInked(Picture picture, int x, int y)
    {
        var at = 4 * ((y * picture.Shape.Across) + x);
        return picture.Colours.Span[at] - picture.Colours.Span[at + 1] > 40;
    }

    private static int Inked(Picture picture) =>
        Enumerable.Range(0, picture.Shape.Count).Count(at => IsInked(picture, at % 64, at / 64));
}
