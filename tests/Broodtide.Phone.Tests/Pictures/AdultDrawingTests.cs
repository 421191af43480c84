using Broodtide.Phone.Pictures;
using Bunit;

namespace Broodtide.Phone.Tests.Pictures;

public sealed class AdultDrawingTests : PhoneContext
{
    [Fact]
    public void Her_second_row_is_dashes_and_his_is_round()
    {
        var her = Render<AdultDrawing>(told => told.Add(p => p.Female, true).Add(p => p.Spots, true));
        var him = Render<AdultDrawing>(told => told.Add(p => p.Female, false).Add(p => p.Spots, true));

        Assert.Equal(7, her.FindAll("rect").Count);
        Assert.Empty(him.FindAll("rect"));
        Assert.Equal(her.FindAll("circle").Count + 7, him.FindAll("circle").Count);
    }

    [Fact]
    public void Her_plates_hang_deeper_than_his()
    {
        static double Depth(IRenderedComponent<AdultDrawing> drawing) =>
            drawing
                .FindAll("path")
                .Select(path => path.GetAttribute("d")!.Split(' '))
                .Where(path => path.Length == 8 && path[1] == "72")
                .Max(path => double.Parse(path[3], System.Globalization.CultureInfo.InvariantCulture));

        var her = Render<AdultDrawing>(told => told.Add(p => p.Female, true).Add(p => p.Plates, true));
        var him = Render<AdultDrawing>(told => told.Add(p => p.Female, false).Add(p => p.Plates, true));

        Assert.True(Depth(her) > Depth(him) + 10);
    }

    [Fact]
    public void A_drawing_is_silent_and_carries_no_style()
    {
        var drawing = Render<AdultDrawing>(told => told.Add(p => p.Female, true).Add(p => p.Length, 0.8));

        Assert.Equal("true", drawing.Find("svg").GetAttribute("aria-hidden"));
        Assert.DoesNotContain("style=", drawing.Markup, StringComparison.Ordinal);
    }
}
