using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace Broodtide.Browser.Tests;

/// <summary>
/// The published app behind an address of its own that can begin to serve a newer version: another version name in
/// the list of files, and one changed file with its right hash, or with bytes that broke off on the way.
/// </summary>
internal sealed partial class ChangedSite : IAsyncDisposable
{
    private const string ListPath = "/service-worker-assets.js";
    private const string ChangedFile = "css/tokens.css";
    private readonly WebApplication _door;
    private readonly RunningServer _behind;
    private readonly HttpClient _http = new(
        new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }
    );
    private string? _newer;
    private bool _broken;

    private ChangedSite(WebApplication door, RunningServer behind) => (_door, _behind) = (door, behind);

    public string Address => _door.Urls.First();

    public RunningServer Behind => _behind;

    public static async Task<ChangedSite> Start()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        var door = builder.Build();
        door.Urls.Add("http://127.0.0.1:0");
        var site = new ChangedSite(door, await RunningServer.Start());
        door.Run(site.Answer);
        await door.StartAsync();
        site.Behind.IsAlsoAt(site.Address);
        return site;
    }

    /// <summary>From now on a newer version is served, whole or with one file broken off.</summary>
    public void Serve(string newer, bool broken = false) => (_newer, _broken) = (newer, broken);

    public async ValueTask DisposeAsync()
    {
        await _door.DisposeAsync();
        await _behind.DisposeAsync();
        _http.Dispose();
    }

    private async Task Answer(HttpContext context)
    {
        var path = context.Request.Path.Value ?? "/";
        if (_newer is { } newer && path == ListPath)
        {
            await Send(context, "text/javascript", await NewerList(newer));
        }
        else if (_newer is not null && path == "/" + ChangedFile)
        {
            var whole = await NewerFile(_newer);
            await Send(context, "text/css", _broken ? whole[..(whole.Length / 2)] : whole);
        }
        else
        {
            await Pass(context);
        }
    }

    private async Task<string> NewerFile(string newer) =>
        await _http.GetStringAsync($"{_behind.Address}/{ChangedFile}")
        + $"\n:root {{ --version: \"{newer}\"; }}\n";

    private async Task<string> NewerList(string newer)
    {
        var list = await _http.GetStringAsync(_behind.Address + ListPath);
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(await NewerFile(newer))));
        list = VersionName().Replace(list, $"\"version\": \"{newer}\"", 1);
        list = FileEntry()
            .Replace(
                list,
                entry =>
                    entry.Value.Replace(
                        entry.Groups["hash"].Value,
                        "sha256-" + hash,
                        StringComparison.Ordinal
                    ),
                1
            );
        Assert.Contains(newer, list, StringComparison.Ordinal);
        Assert.Contains(hash, list, StringComparison.Ordinal);
        return list;
    }

    private static async Task Send(HttpContext context, string type, string text)
    {
        context.Response.ContentType = type;
        context.Response.Headers.CacheControl = "no-cache";
        await context.Response.Body.WriteAsync(Encoding.UTF8.GetBytes(text));
    }

    private async Task Pass(HttpContext context)
    {
        using var asked = new HttpRequestMessage(
            new HttpMethod(context.Request.Method),
            _behind.Address + context.Request.Path + context.Request.QueryString
        );
        if (context.Request.ContentLength > 0 || context.Request.Headers.TransferEncoding.Count > 0)
        {
            asked.Content = new StreamContent(context.Request.Body);
        }

        foreach (var (name, values) in context.Request.Headers)
        {
            if (!asked.Headers.TryAddWithoutValidation(name, values.AsEnumerable()))
            {
                asked.Content?.Headers.TryAddWithoutValidation(name, values.AsEnumerable());
            }
        }

        try
        {
            using var answer = await _http.SendAsync(asked, HttpCompletionOption.ResponseHeadersRead);
            context.Response.StatusCode = (int)answer.StatusCode;
            foreach (var (name, values) in answer.Headers.Concat(answer.Content.Headers))
            {
                context.Response.Headers[name] = values.ToArray();
            }

            context.Response.Headers.Remove("Transfer-Encoding");
            await answer.Content.CopyToAsync(context.Response.Body);
        }
        catch (HttpRequestException)
        {
            context.Response.StatusCode = (int)HttpStatusCode.BadGateway;
        }
    }

    [GeneratedRegex("\"version\":\\s*\"[^\"]*\"")]
    private static partial Regex VersionName();

    [GeneratedRegex(
        "\\{[^{}]*\"(?<hash>sha256-[^\"]*)\"[^{}]*\"css/tokens\\.css\"[^{}]*\\}|\\{[^{}]*\"css/tokens\\.css\"[^{}]*\"(?<hash>sha256-[^\"]*)\"[^{}]*\\}"
    )]
    private static partial Regex FileEntry();
}
