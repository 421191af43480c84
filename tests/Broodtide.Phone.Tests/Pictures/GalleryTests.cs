using System.Text;
using Broodtide.Phone.Pictures;
using Bunit;

namespace Broodtide.Phone.Tests.Pictures;

/// <summary>
/// Writes every case of the pictures into pages that a browser opens as they are, light and dark side by side of each
/// other, for eyes. The pages lie beside the test's own output; nothing compares them.
/// </summary>
public sealed class GalleryTests : PhoneContext
{
    [Fact]
    public void A_gallery_of_all_cases_can_be_written()
    {
        var folder = Path.Combine(AppContext.BaseDirectory, "gallery");
        Directory.CreateDirectory(folder);
        foreach (var width in new[] { 320.0, 390, 768 })
        {
            var body = new StringBuilder();
            foreach (var (name, record) in RunCases.All)
            {
                body.Append("<h2>").Append(name).Append("</h2>");
                foreach (var zoom in width == 390 ? Enum.GetValues<TideZoom>() : [TideZoom.WholeRun])
                {
                    body.Append(
                        Svg(TideLineLayout.Lay(Spoken.Pictures, record, new(width, zoom)), $"{name}-{zoom}")
                    );
                }

                body.Append("<div style=\"margin:8px 20px\">")
                    .Append(
                        Svg(
                            TideLineLayout.Lay(
                                Spoken.Pictures,
                                record,
                                new(Math.Min(350, width - 40), Small: true)
                            ),
                            $"{name}-small"
                        )
                    )
                    .Append("</div>");
            }

            foreach (var (name, picture) in SmallPictureCases.All(width))
            {
                body.Append("<h2>").Append(name).Append("</h2>").Append(Svg(picture, name));
            }

            Write(folder, $"gallery-{width:0}", body.ToString());
        }

        Assert.True(File.Exists(Path.Combine(folder, "gallery-390-light.html")));
    }

    private string Svg(Picture picture, string id) =>
        Render<PictureView>(parameters =>
            parameters
                .Add(view => view.Picture, picture)
                .Add(view => view.IdPrefix, id)
                .Add(view => view.Label, id)
        ).Markup;

    private static void Write(string folder, string name, string body)
    {
        var root = Repository.Root();
        var css = File.ReadAllText(Path.Combine(root, "src/Broodtide.Phone/wwwroot/css/pictures.css"));
        foreach (var scheme in new[] { "light", "dark" })
        {
            var page =
                $"<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Pictures</title><link rel=\"stylesheet\" href=\"tokens-{scheme}.css\"><style>{css}</style><style>body{{margin:0;padding:0 0 40px}}h2{{margin:28px 20px 6px;font-size:16px}}</style><body>{body}</body></html>";
            File.WriteAllText(Path.Combine(folder, $"{name}-{scheme}.html"), page);
        }
    }
}
