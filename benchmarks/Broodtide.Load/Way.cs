using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Load;

/// <summary>One sign-in of one person, as a browser holds it; several phones of that person may share it.</summary>
internal sealed class Way : IServerLink, IDisposable
{
    private readonly HttpClient _http;
    private string? _word;

    public Way(Uri address) =>
        _http = new HttpClient(
            new SocketsHttpHandler { CookieContainer = new CookieContainer(), MaxConnectionsPerServer = 64 }
        )
        {
            BaseAddress = address,
            Timeout = TimeSpan.FromSeconds(60),
        };

    public async Task<string> PostAsync(string path, string json)
    {
        using var content = new StringContent(json, null, "application/json");
        using var answer = await SendAsync(path, content, default);
        var text = await answer.Content.ReadAsStringAsync();
        return answer.IsSuccessStatusCode
            ? text
            : throw new InvalidOperationException($"{path}: {answer.StatusCode} {text}");
    }

    public async Task<byte[]> AskAsync(string request, byte[] body, CancellationToken cancellation = default)
    {
        try
        {
            using var content = new ByteArrayContent(body);
            content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
            using var answer = await SendAsync("api/journal/" + request, content, cancellation);
            var bytes = await answer.Content.ReadAsByteArrayAsync(cancellation);
            return answer.IsSuccessStatusCode ? bytes
                : (int)answer.StatusCode >= 500 ? throw new HouseAwayException($"{answer.StatusCode}")
                : throw HouseRefusedException.Of(bytes);
        }
        catch (Exception away) when (away is HttpRequestException or TaskCanceledException)
        {
            throw new HouseAwayException(away.Message, away);
        }
    }

    public void Dispose() => _http.Dispose();

    private async Task<HttpResponseMessage> SendAsync(
        string path,
        HttpContent content,
        CancellationToken cancellation
    )
    {
        _word ??= await WordAsync(cancellation);
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = content };
        request.Headers.Add(PeopleAddresses.TokenHeader, _word);
        return await _http.SendAsync(request, cancellation);
    }

    /// <summary>The word is bound to who is signed in: after signing in there is another.</summary>
    public void ForgetWord() => _word = null;

    private async Task<string> WordAsync(CancellationToken cancellation) =>
        (
            await _http.GetFromJsonAsync(
                new Uri(PeopleAddresses.Token, UriKind.Relative),
                PeopleJson.Default.TokenSeen,
                cancellation
            )
        )!.Token;
}
