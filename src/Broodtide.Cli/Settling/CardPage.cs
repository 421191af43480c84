using System.Net;
using System.Text;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Settling;

namespace Broodtide.Cli.Settling;

/// <summary>A care card as one page that needs nothing else: to print, or to send.</summary>
internal static class CardPage
{
    public static string Of(CareCard card, Saying saying)
    {
        var page = new StringBuilder();
        page.Append("<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n<title>Care card ")
            .Append(card.Gift.Code.Text)
            .Append(
                "</title>\n<style>body{font:12pt/1.4 sans-serif;max-width:16cm;margin:1.5cm auto;padding:0 1em}"
                    + "dt{font-weight:bold;float:left;clear:left;width:11em}dd{margin-left:11em}"
                    + ".code{font-size:20pt;letter-spacing:.1em}</style>\n</head><body>\n<h1>Care card</h1>\n<p class=\"code\">"
            )
            .Append(card.Gift.Code.Text)
            .Append("</p>\n<dl>\n");
        foreach (var (what, value) in CardVerb.Lines(card, saying))
        {
            if (value is not null)
            {
                page.Append("<dt>")
                    .Append(Plain(what))
                    .Append("</dt><dd>")
                    .Append(Plain(value))
                    .Append("</dd>\n");
            }
        }

        page.Append("</dl>\n<ul>\n");
        foreach (var remark in card.Remarks)
        {
            page.Append("<li>").Append(Plain(saying.Of(remark))).Append("</li>\n");
        }

        page.Append("</ul>\n<p>")
            .Append(Plain(saying.Of(new Remark("card-send-back", new Argument("card", card.Gift.Code.Text)))))
            .Append("</p>\n</body></html>\n");
        return page.ToString();
    }

    private static string Plain(string text) => WebUtility.HtmlEncode(text);
}
