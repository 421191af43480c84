using System.Globalization;
using System.Text.RegularExpressions;
using Broodtide.Phone.Pictures;

namespace Broodtide.Phone.Tests.Pictures;

/// <summary>What must hold of every picture.</summary>
internal static partial class Soundness
{
    /// <summary>No two word boxes overlap, nothing leaves the picture, every number in a path is finite.</summary>
    public static void Check(Picture picture, bool strict)
    {
        var words = picture.Shapes.OfType<WordShape>().ToList();
        for (var i = 0; i < words.Count; i++)
        {
            var box = words[i].Box;
            Assert.True(
                box.Left >= 0 && box.Right <= picture.Width && box.Top >= 0 && box.Bottom <= picture.Height,
                $"'{words[i].Text}' leaves the picture: {box}"
            );
            for (var j = i + 1; j < words.Count; j++)
            {
                Assert.False(box.Hits(words[j].Box), $"'{words[i].Text}' meets '{words[j].Text}'");
            }
        }

        foreach (var shape in picture.Shapes)
        {
            if (shape is PathShape path)
            {
                Assert.DoesNotContain("NaN", path.Data, StringComparison.Ordinal);
                Assert.DoesNotContain("∞", path.Data, StringComparison.Ordinal);
            }

            // A nearer view cuts what runs across its edges; the whole run has none.
            var slack = strict ? 0.06 : 30;
            foreach (var (x, y) in Points(shape))
            {
                Assert.True(
                    x >= -slack && x <= picture.Width + slack && y >= -0.06 && y <= picture.Height + 0.06,
                    $"{shape} leaves the picture at {x}, {y}"
                );
            }
        }
    }

    /// <summary>The points of a shape; paths are absolute.</summary>
    public static List<(double X, double Y)> Points(Shape shape) =>
        shape switch
        {
            BoxShape box => [(box.Box.Left, box.Box.Top), (box.Box.Right, box.Box.Bottom)],
            DiscShape disc => [(disc.X, disc.Y)],
            PathShape path =>
            [
                .. Pair()
                    .Matches(path.Data)
                    .Select(match => (Number(match.Groups["x"].Value), Number(match.Groups["y"].Value))),
            ],
            _ => [],
        };

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex(
        @"(?<x>-?[\d.]+) (?<y>-?[\d.]+)",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex Pair();
}
