using System.Globalization;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using System.Text.Encodings.Web;
using Broodtide.Server.Certificates;
using Broodtide.Server.Words;
using Broodtide.Units;

namespace Broodtide.Server.Trust;

/// <summary>What a phone needs to trust the house: the authority's public certificate, its fingerprint, and the steps.</summary>
internal static class TrustPage
{
    public const string CertificateName = "broodtide-authority.crt";
    public const string CodeName = "code.svg";
    public const string StyleName = "trust.css";

    /// <summary>Runs nothing and loads from here alone.</summary>
    public const string ContentPolicy =
        "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    // 16 px letters, 44 px targets, both grounds; letters on their ground at 7:1 or better.
    public const string Style = """
        :root { color-scheme: light dark; --ground: #f3f6f6; --ink: #10282e; --rule: #8ba0a5; }
        @media (prefers-color-scheme: dark) { :root { --ground: #0a1316; --ink: #e8f0f1; --rule: #5d7378; } }
        body { margin: 0 auto; padding: 1rem; max-width: 40rem; background: var(--ground); color: var(--ink); font: 1rem/1.5 system-ui, sans-serif; }
        h1 { font-size: 1.5rem; line-height: 1.2; }
        h2 { font-size: 1.125rem; border-top: 1px solid var(--rule); padding-top: 1rem; }
        .print { font: 1rem/1.6 ui-monospace, monospace; border: 2px solid var(--ink); padding: .75rem; }
        .key { display: inline-block; min-height: 2.75rem; line-height: 2.75rem; padding: 0 1rem; color: var(--ground); background: var(--ink); text-decoration: none; }
        .key:focus-visible { outline: 3px solid var(--ink); outline-offset: 3px; }
        img { width: 12rem; max-width: 100%; height: auto; background: #fff; }
        p, a { overflow-wrap: anywhere; }
        """;

    /// <summary>The page.</summary>
    /// <param name="authority">The house's authority.</param>
    /// <param name="trustPage">Where phones that do not trust it yet open this page.</param>
    /// <param name="app">The address of the app.</param>
    /// <param name="isProtected">Whether the page comes over HTTPS, so that its fingerprint may be believed.</param>
    /// <param name="speech">In which language.</param>
    public static string Html(
        X509Certificate2 authority,
        string trustPage,
        string app,
        bool isProtected,
        Speech speech
    )
    {
        var name = authority.GetNameInfo(X509NameType.SimpleName, forIssuer: false);
        var names = string.Join(", ", NameConstraints.Read(authority).All);
        var day = authority.NotAfter.ToUniversalTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        var page = new StringBuilder("<!doctype html>\n<html lang=\"");
        page.Append(Safe("trust.language")).Append("\"><head><meta charset=\"utf-8\">");
        page.Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>");
        page.Append(Safe("trust.title"))
            .Append("</title><link rel=\"stylesheet\" href=\"" + StyleName + "\"></head><body><main>");
        Put("h1", "trust.title");
        Put("p", "trust.what");
        Put("h2", "trust.compare");
        Put("p", isProtected ? "trust.compare.safe" : "trust.compare.what");
        Put("p", "trust.fingerprint", new Argument("name", name));
        page.Append("<p class=\"print\">")
            .Append(Fingerprint.Of(authority).Replace(":", ":<wbr>", StringComparison.Ordinal))
            .Append("</p>");
        Put("h2", "trust.fetch");
        page.Append("<p><a class=\"key\" download href=\"" + CertificateName + "\">")
            .Append(Safe("trust.fetch.key"))
            .Append("</a></p>");
        Put("h2", "trust.install");
        Put("p", "trust.install.1");
        Put("p", "trust.install.2", new Argument("names", names));
        Put("p", "trust.install.3");
        Put("p", "trust.install.4");
        Put("h2", "trust.open");
        page.Append("<p><a href=\"")
            .Append(Encoded(app))
            .Append("/\">")
            .Append(Encoded(app))
            .Append("</a></p>");
        Put("p", "trust.open.what");
        Put("h2", "trust.another");
        page.Append("<p><img src=\"" + CodeName + "\" alt=\"")
            .Append(Safe("trust.picture", new Argument("page", trustPage)))
            .Append("\"></p>");
        Put("p", "trust.another.what");
        page.Append("<p>").Append(Encoded(trustPage)).Append("</p>");
        Put("h2", "trust.back");
        Put("p", "trust.back.what");
        Put("p", "trust.ends", new Argument("day", day));
        return page.Append("</main></body></html>\n").ToString();

        void Put(string element, string code, params ReadOnlySpan<Argument> arguments) =>
            page.Append('<')
                .Append(element)
                .Append('>')
                .Append(Safe(code, arguments))
                .Append("</")
                .Append(element)
                .Append('>');

        string Safe(string code, params ReadOnlySpan<Argument> arguments) =>
            Encoded(Said.Sentence(new Remark(code, arguments), speech));
    }

    private static string Encoded(string text) => HtmlEncoder.Default.Encode(text);
}
