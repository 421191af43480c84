using System.Text.RegularExpressions;
using Broodtide.Phone.Pictures;
using Broodtide.Workbench.Species;

namespace Broodtide.Phone.Tests.Pictures;

public sealed partial class LarvaFigureTests
{
    private static IReadOnlyList<KeyStage> Key => [.. StageKey.Of(SpeciesProfiles.Reference.Stages)];

    private static LarvaTraits Of(string code) => Key.Single(stage => stage.Code == code).Traits;

    [Fact]
    public void The_drawings_follow_the_signs_of_the_profile()
    {
        // Characters as keepers report them for this species and as the key to Macrobrachium lar has them.
        Assert.Equal([false, true, true], new[] { "Z1", "Z2", "PL" }.Select(code => Of(code).EyesStalked));
        Assert.Equal([14, 16, 16], new[] { "Z1", "Z2", "Z3" }.Select(code => Of(code).TailBristles));
        Assert.Equal([false, true], new[] { "Z2", "Z3" }.Select(code => Of(code).OuterBranches));
        Assert.Equal([false, true], new[] { "Z3", "Z4" }.Select(code => Of(code).InnerBranches));
        Assert.Equal([false, true], new[] { "Z4", "Z5" }.Select(code => Of(code).TailPlateRectangle));
        Assert.Equal([false, true], new[] { "Z6", "Z7" }.Select(code => Of(code).LeavesLight));
        Assert.Equal(
            [Pleopods.None, Pleopods.Buds, Pleopods.Bristled],
            new[] { "Z7", "Z8", "Z9" }.Select(code => Of(code).Pleopods)
        );
        Assert.Equal([false, true], new[] { "Z9", "PL" }.Select(code => Of(code).Walks));
    }

    [Fact]
    public void What_shows_after_a_stage_is_looked_for_in_the_next()
    {
        var eighth = Key.Single(stage => stage.Code == "Z8");

        Assert.Equal(["pleopods", "looks-like-small-adult"], eighth.Signs.Select(sign => sign.Sign.Code));
        Assert.All(eighth.Signs, sign => Assert.Equal("Z7", sign.Told));
        Assert.DoesNotContain(LarvaPart.Pleopods, Of("Z7").ToLookFor);
    }

    [Theory]
    [InlineData(14)]
    [InlineData(16)]
    [InlineData(1)]
    public void The_glass_over_the_tail_shows_as_many_bristles_as_are_told(int bristles)
    {
        var shapes = LarvaFigure
            .Draw(new LarvaTraits { TailBristles = bristles, ToLookFor = [LarvaPart.TailBristles] })
            .Shapes;

        var drawn = Assert.Single(shapes.OfType<PathShape>(), shape => shape.Class == "larva-bristle");
        Assert.Equal(bristles, Strokes().Count(drawn.Data));
    }

    [Fact]
    public void A_stage_whose_signs_are_parts_has_a_ring_and_one_without_has_none()
    {
        int Rings(string code) =>
            LarvaFigure.Draw(Of(code)).Shapes.OfType<DiscShape>().Count(disc => disc.Class == "larva-ring");

        Assert.Equal([2, 2, 1, 1, 1, 0, 1, 1, 1], Enumerable.Range(1, 9).Select(stage => Rings($"Z{stage}")));
    }

    [Fact]
    public void What_is_in_a_glass_stays_in_it_and_everything_in_the_picture()
    {
        foreach (var stage in Key)
        {
            var shapes = LarvaFigure.Draw(stage.Traits).Shapes;
            Soundness.Check(new Picture(LarvaFigure.Width, LarvaFigure.Height, shapes, []), strict: true);
            DiscShape? glass = null;
            foreach (var shape in shapes)
            {
                if (shape is DiscShape { Class: "larva-lens" } lens)
                {
                    glass = lens;
                }
                else if (shape is DiscShape { Class: "larva-ring" })
                {
                    glass = null;
                }
                else if (glass is not null)
                {
                    Assert.All(
                        Soundness.Points(shape),
                        point =>
                            Assert.True(
                                Math.Sqrt(Math.Pow(point.X - glass.X, 2) + Math.Pow(point.Y - glass.Y, 2))
                                    <= glass.Radius + 1,
                                $"{stage.Code}: {shape.Class} leaves its glass at {point}"
                            )
                    );
                }
            }
        }
    }

    [GeneratedRegex("M", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Strokes();
}
